package bufferstop.modbus;

import bufferstop.image.SnapshotRing;

/** Answers to reads, each from one publication. One thread uses one of these. */
final class Reads {
  private static final int COUNT_AT = Exchange.FUNCTION_AT + 1;
  private static final int DATA_AT = COUNT_AT + 1;

  private final SnapshotRing.Reader bitReader = this::packBits;
  private final SnapshotRing.Reader registerReader = this::putRegisters;

  // what is being read, since the readers are made once
  private AddressTable table;
  private int address;
  private int quantity;
  private byte[] answer;

  /**
   * Byte count and packed bits: first one lowest, unused ones 0.
   *
   * @return how many bytes stand behind the function code
   */
  int bits(SnapshotRing snapshots, AddressTable from, int first, int count, byte[] into)
      throws Refusal {
    int bytes = (count + 7) / 8;
    read(snapshots, bitReader, from, first, count, into);
    into[COUNT_AT] = (byte) bytes;
    return 1 + bytes;
  }

  /**
   * Byte count and registers.
   *
   * @return how many bytes stand behind the function code
   */
  int registers(SnapshotRing snapshots, AddressTable from, int first, int count, byte[] into)
      throws Refusal {
    read(snapshots, registerReader, from, first, count, into);
    into[COUNT_AT] = (byte) (2 * count);
    return 1 + 2 * count;
  }

  private void read(
      SnapshotRing snapshots,
      SnapshotRing.Reader reader,
      AddressTable from,
      int first,
      int count,
      byte[] into)
      throws Refusal {
    Refusal.unless(snapshots.published() >= 0, Refusal.DEVICE_FAILURE); // no scan so far
    table = from;
    address = first;
    quantity = count;
    answer = into;
    snapshots.read(reader);
  }

  private void packBits(long[] image) {
    int[] cells = table.cells();
    byte[] out = answer;
    int at = DATA_AT;
    int bit = address;
    int end = address + quantity;
    for (; bit + 8 <= end; bit += 8) {
      out[at++] =
          (byte)
              (value(image, cells[bit])
                  | value(image, cells[bit + 1]) << 1
                  | value(image, cells[bit + 2]) << 2
                  | value(image, cells[bit + 3]) << 3
                  | value(image, cells[bit + 4]) << 4
                  | value(image, cells[bit + 5]) << 5
                  | value(image, cells[bit + 6]) << 6
                  | value(image, cells[bit + 7]) << 7);
    }
    if (bit < end) {
      int rest = 0;
      for (int i = 0; bit + i < end; i++) {
        rest |= value(image, cells[bit + i]) << i;
      }
      out[at] = (byte) rest;
    }
  }

  private static int value(long[] image, int cell) {
    return cell < 0 ? 0 : (int) image[cell];
  }

  private void putRegisters(long[] image) {
    int[] cells = table.cells();
    byte[] out = answer;
    int at = DATA_AT;
    int end = address + quantity;
    for (int register = address; register < end; register++) {
      int cell = cells[register];
      int word;
      if (cell >= 0) {
        word = (int) image[cell]; // most registers are just that
      } else {
        Slot slot = table.slotAt(register);
        word = slot.word(image, register - slot.address());
      }
      out[at] = (byte) (word >> 8);
      out[at + 1] = (byte) word;
      at += 2;
    }
  }
}
