package bufferstop.modbus;

import bufferstop.image.WriteRequest;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * One request's values on their way to one command. Throws before anything is queued. Addresses
 * have been checked before. Where a point stands at two addresses of one request, the later address
 * wins, as if they had been written in order.
 */
final class WriteBatch {
  private static final byte[] OFF = {0, 0};
  private static final byte[] ON = {0, 1};

  private record Value(long bits, long keep) {}

  private final Map<Integer, Value> byCell = new LinkedHashMap<>();

  private WriteBatch() {}

  /** FC 05. */
  static WriteRequest coil(AddressTable table, Exchange x) throws Refusal {
    WriteBatch batch = new WriteBatch();
    table.slotAt(x.word(1)).write(x.word(3) == 0 ? OFF : ON, 0, batch);
    return batch.request();
  }

  /** FC 15. */
  static WriteRequest coils(AddressTable table, Exchange x) throws Refusal {
    WriteBatch batch = new WriteBatch();
    for (int i = 0; i < x.word(3); i++) {
      int bits = x.request[Exchange.FUNCTION_AT + 6 + i / 8];
      table.slotAt(x.word(1) + i).write((bits >> i % 8 & 1) == 0 ? OFF : ON, 0, batch);
    }
    return batch.request();
  }

  /**
   * FC 06, 16 and 23.
   *
   * @param addressAt where in the PDU the first address stands
   * @param dataAt where in the PDU the registers stand
   */
  static WriteRequest registers(
      AddressTable table, Exchange x, int addressAt, int quantity, int dataAt) throws Refusal {
    WriteBatch batch = new WriteBatch();
    int address = x.word(addressAt);
    int at = 0;
    while (at < quantity) {
      Slot slot = table.slotAt(address + at);
      slot.write(x.request, Exchange.FUNCTION_AT + dataAt + 2 * at, batch);
      at += slot.size();
    }
    return batch.request();
  }

  /**
   * FC 22: new value = (old AND {@code and}) OR ({@code or} AND NOT {@code and}), worked out by the
   * scan that takes it, so that nobody can write in between.
   */
  static WriteRequest masked(AddressTable table, Exchange x) throws Refusal {
    WriteBatch batch = new WriteBatch();
    table.slotAt(x.word(1)).mask(x.word(3), x.word(5), batch);
    return batch.request();
  }

  /**
   * One cell's part.
   *
   * @param keep the bits that stay as they are
   */
  void put(int cell, long bits, long keep) {
    byCell.put(cell, new Value(bits, keep));
  }

  private WriteRequest request() {
    return new WriteRequest(
        byCell.keySet().stream().mapToInt(Integer::intValue).toArray(),
        byCell.values().stream().mapToLong(Value::bits).toArray(),
        byCell.values().stream().mapToLong(Value::keep).toArray());
  }
}
