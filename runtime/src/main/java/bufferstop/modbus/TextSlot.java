package bufferstop.modbus;

import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.Serving.Sections;

/**
 * A text in registers: two bytes each, the first in the higher one, zeros behind its end. Its first
 * cell holds its length in bytes, the following ones the bytes, eight each, the first in the
 * highest bits.
 */
final class TextSlot extends Slot {
  private static final int PER_CELL = Long.BYTES;

  private final int cell;
  private final int most;
  private final ByteOrder order;
  private final String section;
  private final boolean writable;

  /**
   * A slot.
   *
   * @param cell its first one
   * @param most bytes the text may have, at least 1
   */
  TextSlot(int address, int cell, int most, ByteOrder order, String section, boolean writable) {
    super(address, registers(most));
    this.cell = cell;
    this.most = most;
    this.order = order;
    this.section = section;
    this.writable = writable;
  }

  /** Registers that a text of so many bytes takes. */
  static int registers(int bytes) {
    return Math.max(1, (bytes + 1) / 2);
  }

  @Override
  boolean isWritable() {
    return writable;
  }

  @Override
  boolean isOnlyIn(Sections sections) {
    return sections.has(section);
  }

  @Override
  int word(long[] image, int register) {
    int word = at(image, 2 * register) << 8 | at(image, 2 * register + 1);
    return swapped(word);
  }

  private int at(long[] image, int index) {
    boolean there = index < most && index < image[cell];
    return there ? (int) (image[cell + 1 + index / PER_CELL] >>> shift(index)) & 0xFF : 0;
  }

  private static int shift(int index) {
    return Byte.SIZE * (PER_CELL - 1 - index % PER_CELL);
  }

  private int swapped(int word) {
    return order == ByteOrder.LOW_BYTE_FIRST ? RegisterCode.swapped(word) : word;
  }

  /** A zero ends the text; what stands behind it does not count. */
  @Override
  void write(byte[] bytes, int at, WriteBatch batch) throws Refusal {
    long[] packed = new long[(most + PER_CELL - 1) / PER_CELL];
    int length = 0;
    for (int character = next(bytes, at, 0); character != 0; character = next(bytes, at, length)) {
      Refusal.unless(length < most, Refusal.DEVICE_FAILURE); // one register more than it holds
      packed[length / PER_CELL] |= (long) character << shift(length);
      length++;
    }
    batch.put(cell, length, 0);
    for (int i = 0; i < packed.length; i++) {
      batch.put(cell + 1 + i, packed[i], 0);
    }
  }

  /** A byte of what was written; 0 behind the last register. */
  private int next(byte[] bytes, int at, int index) {
    if (index >= 2 * size()) {
      return 0;
    }
    int word = swapped(PduCheck.word(bytes, at + index / 2 * 2));
    return index % 2 == 0 ? word >> 8 : word & 0xFF;
  }

  /** Half a text is no text. */
  @Override
  void mask(int and, int or, WriteBatch batch) throws Refusal {
    throw new Refusal(Refusal.DEVICE_FAILURE);
  }
}
