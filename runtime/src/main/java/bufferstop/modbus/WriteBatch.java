package bufferstop.modbus;

import bufferstop.image.WriteRequest;
import bufferstop.model.Type;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.IntPredicate;
import java.util.function.IntUnaryOperator;

/**
 * One request's values on their way to one command. Throws before anything is queued: address
 * faults first, then values. Where a point stands at two addresses of one request, the later
 * address wins, as if they had been written in order.
 */
final class WriteBatch {
  private final Map<Integer, Long> bitsByCell = new LinkedHashMap<>();
  private long keep; // of the only cell of a mask write

  private WriteBatch() {}

  static WriteRequest coils(AddressTable table, int address, int quantity, IntPredicate isOn)
      throws Refusal {
    Refusal.unless(table.takes(address, quantity), Refusal.ILLEGAL_ADDRESS);
    WriteBatch batch = new WriteBatch();
    for (int i = 0; i < quantity; i++) {
      batch.put(table.slotAt(address + i), isOn.test(i) ? 1 : 0);
    }
    return batch.request();
  }

  static WriteRequest registers(
      AddressTable table, int address, int quantity, IntUnaryOperator words) throws Refusal {
    Refusal.unless(table.takes(address, quantity), Refusal.ILLEGAL_ADDRESS);
    WriteBatch batch = new WriteBatch();
    int i = 0;
    while (i < quantity) {
      Slot slot = table.slotAt(address + i);
      long raw = 0;
      for (int end = i + slot.size(); i < end; i++) {
        raw |= (words.applyAsInt(i) & 0xFFFFL) << slot.shift(address + i);
      }
      batch.put(slot, RegisterCode.bits(raw, slot.type()));
    }
    return batch.request();
  }

  /**
   * New value = (old AND {@code and}) OR ({@code or} AND NOT {@code and}), worked out by the scan
   * that takes it, so that nobody can write in between. Only for what any 16 bits suit: the result
   * is not known here and could not be checked against a range.
   */
  static WriteRequest masked(AddressTable table, int address, int and, int or) throws Refusal {
    Refusal.unless(table.takes(address, 1), Refusal.ILLEGAL_ADDRESS);
    Slot slot = table.slotAt(address);
    boolean suitsAnyBits =
        slot.type() == Type.INT || slot.type() == Type.UINT || slot.type() == Type.WORD;
    Refusal.unless(suitsAnyBits && slot.writable().least() == null, Refusal.DEVICE_FAILURE);
    WriteBatch batch = new WriteBatch();
    batch.put(slot, RegisterCode.bits(or, slot.type()));
    batch.keep = RegisterCode.bits(and, slot.type()); // sign-extended like the value itself
    return batch.request();
  }

  private void put(Slot slot, long bits) throws Refusal {
    boolean good = RegisterCode.fits(bits, slot.type()) && slot.writable().admits(bits);
    Refusal.unless(good, Refusal.DEVICE_FAILURE);
    bitsByCell.put(slot.cell(), bits);
  }

  private WriteRequest request() {
    int[] cells = bitsByCell.keySet().stream().mapToInt(Integer::intValue).toArray();
    long[] bits = bitsByCell.values().stream().mapToLong(Long::longValue).toArray();
    long[] kept = new long[cells.length];
    kept[0] = keep;
    return new WriteRequest(cells, bits, kept);
  }
}
