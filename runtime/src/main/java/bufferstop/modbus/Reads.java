package bufferstop.modbus;

import bufferstop.image.SnapshotRing;

/** Answers to reads, each from one publication. One thread uses one of these. */
final class Reads {
  private static final int DATA_AT = Exchange.FUNCTION_AT + 2; // behind function and byte count

  private long[] values = new long[2000]; // a read has at most as many coils; a text may have more

  /**
   * Byte count and packed bits: first one lowest, unused ones 0.
   *
   * @return how many bytes stand behind the function code
   */
  int bits(SnapshotRing snapshots, AddressTable table, int address, int quantity, byte[] answer)
      throws Refusal {
    copy(snapshots, table, address, quantity);
    int bytes = (quantity + 7) / 8;
    int at = DATA_AT;
    int whole = quantity & ~7;
    long[] v = values;
    for (int i = 0; i < whole; i += 8) {
      answer[at++] =
          (byte)
              (v[i]
                  | v[i + 1] << 1
                  | v[i + 2] << 2
                  | v[i + 3] << 3
                  | v[i + 4] << 4
                  | v[i + 5] << 5
                  | v[i + 6] << 6
                  | v[i + 7] << 7);
    }
    if (whole < quantity) {
      int rest = 0;
      for (int i = whole; i < quantity; i++) {
        rest |= (int) v[i] << i - whole;
      }
      answer[at] = (byte) rest;
    }
    answer[DATA_AT - 1] = (byte) bytes;
    return 1 + bytes;
  }

  /**
   * Byte count and registers.
   *
   * @return how many bytes stand behind the function code
   */
  int registers(
      SnapshotRing snapshots, AddressTable table, int address, int quantity, byte[] answer)
      throws Refusal {
    int index = table.indexAt(address);
    int first = copy(snapshots, table, address, quantity);
    int at = DATA_AT;
    int register = address;
    int end = address + quantity;
    while (register < end) {
      Slot slot = table.slot(index);
      int value = table.cellsBefore(index) - first;
      int last = Math.min(end, slot.end());
      for (; register < last; register++) {
        int word = slot.word(values, value, register - slot.address());
        answer[at++] = (byte) (word >> 8);
        answer[at++] = (byte) word;
      }
      index++;
    }
    answer[DATA_AT - 1] = (byte) (2 * quantity);
    return 1 + 2 * quantity;
  }

  /** Copies a range's values; gives the index of the first among the table's cells. */
  private int copy(SnapshotRing snapshots, AddressTable table, int address, int quantity)
      throws Refusal {
    Refusal.unless(snapshots.published() >= 0, Refusal.DEVICE_FAILURE); // no scan so far
    int first = table.firstCell(address);
    int count = table.cellsEnd(address + quantity - 1) - first;
    if (count > values.length) {
      values = new long[count];
    }
    snapshots.copy(table.cells(), first, count, values);
    return first;
  }
}
