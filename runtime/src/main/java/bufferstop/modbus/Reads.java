package bufferstop.modbus;

import bufferstop.image.SnapshotRing;

/** Answers to reads, each from one publication. One thread uses one of these. */
final class Reads {
  private static final int MOST_SLOTS = 2000; // a read has at most as many coils

  private final long[] values = new long[MOST_SLOTS];

  /** Byte count and packed bits: first one lowest, unused ones 0. */
  byte[] bits(SnapshotRing snapshots, AddressTable table, int address, int quantity)
      throws Refusal {
    copy(snapshots, table, address, quantity);
    byte[] message = counted((quantity + 7) / 8);
    for (int i = 0; i < quantity; i++) {
      message[1 + i / 8] |= (byte) (values[i] << i % 8);
    }
    return message;
  }

  /** Byte count and registers. */
  byte[] registers(SnapshotRing snapshots, AddressTable table, int address, int quantity)
      throws Refusal {
    int first = copy(snapshots, table, address, quantity);
    byte[] message = counted(2 * quantity);
    for (int i = 0; i < quantity; i++) {
      int index = table.indexAt(address + i);
      int word = table.slot(index).word(values[index - first], address + i);
      message[1 + 2 * i] = (byte) (word >> 8);
      message[2 + 2 * i] = (byte) word;
    }
    return message;
  }

  /** Copies a range's values; gives the index of its first slot. */
  private int copy(SnapshotRing snapshots, AddressTable table, int address, int quantity)
      throws Refusal {
    Refusal.unless(table.covers(address, quantity), Refusal.ILLEGAL_ADDRESS);
    Refusal.unless(snapshots.published() >= 0, Refusal.DEVICE_FAILURE); // no scan so far
    int first = table.indexAt(address);
    int last = table.indexAt(address + quantity - 1);
    snapshots.copy(table.cells(), first, last - first + 1, values);
    return first;
  }

  private static byte[] counted(int bytes) {
    byte[] message = new byte[1 + bytes];
    message[0] = (byte) bytes;
    return message;
  }
}
