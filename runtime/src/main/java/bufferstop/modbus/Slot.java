package bufferstop.modbus;

import bufferstop.model.Serving.Sections;

/** Some neighbouring addresses of a table that belong together: what stands there, resolved. */
abstract sealed class Slot permits ValueSlot, BitsSlot, TextSlot, FixedSlot {
  /** What is no cell. */
  static final int NO_CELL = -1;

  private final int address;
  private final int size;

  /**
   * A slot.
   *
   * @param size addresses it takes
   */
  Slot(int address, int size) {
    this.address = address;
    this.size = size;
  }

  final int address() {
    return address;
  }

  /** The first address behind it. */
  final int end() {
    return address + size;
  }

  final int size() {
    return size;
  }

  /** The cell whose lowest bits are all that stands here, or {@link #NO_CELL}. */
  int plainCell() {
    return NO_CELL;
  }

  /** Whether a client may write it whole. */
  abstract boolean isWritable();

  /** Whether a client may write those of its bits that are 0 in {@code and}; one register. */
  boolean isWritableUnder(int and) {
    return size == 1 && isWritable();
  }

  /** Whether all that stands here belongs to some sections. */
  abstract boolean isOnlyIn(Sections sections);

  /**
   * One of its registers.
   *
   * @param image one publication
   * @param register within this slot, from 0
   * @return its 16 bits
   */
  abstract int word(long[] image, int register);

  /**
   * Puts what a client wrote into a batch.
   *
   * @param bytes with all its registers from {@code at} on, high byte first; of a coil one register
   *     that is 0 or 1
   * @throws Refusal when a point does not take its value
   */
  abstract void write(byte[] bytes, int at, WriteBatch batch) throws Refusal;

  /**
   * Puts a write under a mask into a batch: new = (old AND and) OR (or AND NOT and).
   *
   * @throws Refusal when what stands here cannot be written so
   */
  abstract void mask(int and, int or, WriteBatch batch) throws Refusal;
}
