package bufferstop.modbus;

import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.ModbusMap.Table;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Entries of one table that one request reaches: next to each other, or apart by declared gaps
 * only.
 *
 * @param address of the first
 * @param quantity addresses up to the end of the last
 */
record AddressRow(Table table, int address, int quantity, List<Entry> entries) {

  /**
   * Sorts entries into as few rows as there may be.
   *
   * @param gaps that may be read over; none when rows are written
   * @param mostBits in one request
   * @param mostRegisters in one request
   */
  static List<AddressRow> of(
      List<Entry> entries, List<Fixed> gaps, int mostBits, int mostRegisters) {
    List<AddressRow> rows = new ArrayList<>();
    for (Table table : Table.values()) {
      int most = table.isBit() ? mostBits : mostRegisters;
      List<Entry> open = new ArrayList<>();
      int end = 0;
      List<Entry> sorted =
          entries.stream()
              .filter(e -> e.table() == table)
              .sorted(Comparator.comparingInt(Entry::address).thenComparingInt(Entry::bit))
              .toList();
      for (Entry entry : sorted) {
        boolean joins =
            !open.isEmpty()
                && reaches(end, entry.address(), table, gaps)
                && entry.address() + entry.size() - open.get(0).address() <= most;
        if (!joins && !open.isEmpty()) {
          rows.add(row(table, open, end));
          open.clear();
        }
        open.add(entry);
        end = entry.address() + entry.size();
      }
      if (!open.isEmpty()) {
        rows.add(row(table, open, end));
      }
    }
    return rows;
  }

  private static AddressRow row(Table table, List<Entry> open, int end) {
    int address = open.get(0).address();
    return new AddressRow(table, address, end - address, List.copyOf(open));
  }

  /** Whether every address between is in a declared gap. */
  private static boolean reaches(int end, int next, Table table, List<Fixed> gaps) {
    int at = end;
    boolean moved = true;
    while (at < next && moved) {
      moved = false;
      for (Fixed gap : gaps) {
        if (gap.table() == table && gap.address() <= at && gap.address() + gap.size() > at) {
          at = gap.address() + gap.size();
          moved = true;
        }
      }
    }
    return at >= next;
  }
}
