package bufferstop.modbus;

import bufferstop.image.SnapshotRing;

/** Answers to reads, each from one publication. One thread uses one of these. */
final class Reads {
  private static final int COUNT_AT = Exchange.FUNCTION_AT + 1;
  private static final int OCTET = 8;
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
    int at = DATA_AT;
    int bit = address;
    int end = address + quantity;
    while (bit < end) {
      int cell = table.cells()[bit];
      int octets = cell < 0 ? 0 : (Math.min(end, table.rowEnds()[bit]) - bit) / OCTET;
      if (octets > 0) {
        packRow(image, cell, octets, answer, at);
      } else {
        octets = 1;
        answer[at] = (byte) bits(image, bit, Math.min(OCTET, end - bit));
      }
      at += octets;
      bit += octets * OCTET;
    }
  }

  /** The usual case: bits whose cells follow one another. */
  private static void packRow(long[] image, int first, int octets, byte[] out, int at) {
    int cell = first;
    for (int i = 0; i < octets; i++) {
      long low = image[cell] | image[cell + 1] << 1 | image[cell + 2] << 2 | image[cell + 3] << 3;
      long high =
          image[cell + 4] | image[cell + 5] << 1 | image[cell + 6] << 2 | image[cell + 7] << 3;
      out[at + i] = (byte) (low | high << 4);
      cell += OCTET;
    }
  }

  private int bits(long[] image, int bit, int count) {
    int bits = 0;
    for (int i = 0; i < count; i++) {
      int cell = table.cells()[bit + i];
      bits |= (cell < 0 ? 0 : (int) image[cell]) << i;
    }
    return bits;
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
