package bufferstop.modbus;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Position;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Finds addresses taken twice, and addresses for entries that leave theirs open: each takes the
 * first free ones behind the entry of its table before it in the file, so that what is added at the
 * end moves nothing. Used for one map.
 */
final class Placement {
  private static final int ADDRESSES = 65_536;

  /** What stands at some addresses. */
  private record Taken(String by, int address, int size, int bits, Position position) {}

  private final ModbusMap map;
  private final Diagnostics problems;
  private final Map<Table, Taken[]> taken = new EnumMap<>(Table.class);

  Placement(ModbusMap map, Diagnostics problems) {
    this.map = map;
    this.problems = problems;
  }

  /** Those entries that have a place, in their order. */
  List<Entry> place(List<Entry> entries) {
    List<Entry> placed = new ArrayList<>();
    for (Entry entry : entries) {
      boolean open = entry.address() == ModbusMap.AUTO;
      placed.add(open || claim(entry) ? entry : null);
    }
    map.fixed().forEach(this::claim);
    int[] next = new int[Table.values().length];
    for (int i = 0; i < placed.size(); i++) {
      Entry entry = placed.get(i);
      if (entry != null && entry.address() == ModbusMap.AUTO) {
        entry = automatic(entry, next[entry.table().ordinal()]);
        placed.set(i, entry);
      }
      if (entry != null) {
        next[entry.table().ordinal()] = entry.address() + entry.size();
      }
    }
    placed.removeIf(entry -> entry == null);
    return List.copyOf(placed);
  }

  private Entry automatic(Entry entry, int from) {
    int free = free(entry.table(), from, entry.size());
    if (free < 0) {
      problems.add(
          Diagnostic.error(
                  Code.ADDRESS_TAKEN,
                  entry.position(),
                  "no room for `" + entry.point().text() + "` behind the entry before it")
              .expected("a free " + words(entry.table()) + " up to " + (ADDRESSES - 1))
              .help("give it an address"));
      return null;
    }
    Entry placed = entry.at(free);
    claim(placed);
    return placed;
  }

  private boolean claim(Entry entry) {
    if (entry.address() + entry.size() > ADDRESSES) {
      problems.add(
          Diagnostic.error(
                  Code.PAST_THE_END,
                  entry.position(),
                  "`"
                      + entry.point().text()
                      + "` takes "
                      + entry.size()
                      + " registers and runs past the end of the table")
              .expected("an address up to " + (ADDRESSES - entry.size())));
      return false;
    }
    String by = "`" + entry.point().text() + "`, " + entry.type();
    int bits = entry.bit() == ModbusMap.WHOLE ? 0xFFFF : 1 << entry.bit();
    return claim(
        entry.table(),
        new Taken(by, entry.address(), entry.size(), bits, entry.position()),
        entry.bit());
  }

  private void claim(Fixed fixed) {
    claim(
        fixed.table(),
        new Taken(
            fixed.words().isEmpty() ? "a gap" : "what never changes",
            fixed.address(),
            fixed.size(),
            0xFFFF,
            fixed.position()),
        ModbusMap.WHOLE);
  }

  private boolean claim(Table table, Taken wanted, int bit) {
    Taken[] there = there(table);
    for (int i = wanted.address(); i < wanted.address() + wanted.size(); i++) {
      if (there[i] != null && (there[i].bits() & wanted.bits()) != 0) {
        reportTaken(table, wanted, i, there[i], bit);
        return false;
      }
    }
    for (int i = wanted.address(); i < wanted.address() + wanted.size(); i++) {
      int bits = there[i] == null ? 0 : there[i].bits();
      there[i] =
          new Taken(
              wanted.by(),
              wanted.address(),
              wanted.size(),
              wanted.bits() | bits,
              wanted.position());
    }
    return true;
  }

  private Taken[] there(Table table) {
    return taken.computeIfAbsent(table, t -> new Taken[ADDRESSES]);
  }

  private static String words(Table table) {
    return table.word().replace('_', ' ');
  }

  private void reportTaken(Table table, Taken wanted, int address, Taken first, int bit) {
    int free = free(table, address, wanted.size());
    String last = wanted.size() == 1 ? "" : " to " + (free + wanted.size() - 1);
    String where = words(table) + " " + address + (bit == ModbusMap.WHOLE ? "" : " bit " + bit);
    problems.add(
        Diagnostic.error(
                Code.ADDRESS_TAKEN,
                wanted.position(),
                where + " of map `" + map.name() + "` is taken twice")
            .note(first.position(), "by " + first.by() + ", " + places(table, first))
            .help(
                free < 0
                    ? ""
                    : "next free: " + words(table) + (last.isEmpty() ? " " : "s ") + free + last));
  }

  private static String places(Table table, Taken taken) {
    int last = taken.address() + taken.size() - 1;
    String unit = table.isBit() ? "address" : "register";
    String plural = table.isBit() ? "addresses " : "registers ";
    return taken.size() == 1
        ? unit + " " + taken.address()
        : plural + taken.address() + " to " + last;
  }

  /** First address from {@code from} on with {@code size} free ones, or -1. */
  private int free(Table table, int from, int size) {
    Taken[] there = there(table);
    int run = 0;
    for (int i = from; i < ADDRESSES; i++) {
      run = there[i] == null ? run + 1 : 0;
      if (run == size) {
        return i - size + 1;
      }
    }
    return -1;
  }
}
