package bufferstop.modbus;

import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.Point;
import bufferstop.model.Serving.Sections;
import bufferstop.model.Type;

/** One value in a bit or in one or more registers. */
final class ValueSlot extends Slot {
  private final int cell;
  private final Type type;
  private final Coding coding;
  private final ScaledValue scaled; // null when the value stands there as it is
  private final String section;
  private final Point writable;

  /**
   * A slot.
   *
   * @param writable the point a client may write here, or null
   */
  ValueSlot(
      int address, int size, int cell, Type type, Coding coding, String section, Point writable) {
    super(address, size);
    this.cell = cell;
    this.type = type;
    this.coding = coding;
    this.scaled = coding.scale() == null ? null : new ScaledValue(type, coding.scale());
    this.section = section;
    this.writable = writable;
  }

  @Override
  boolean isWritable() {
    return writable != null;
  }

  @Override
  boolean isOnlyIn(Sections sections) {
    return sections.has(section);
  }

  @Override
  int plainCell() {
    boolean plain = size() == 1 && scaled == null && coding.bytes() == ByteOrder.HIGH_BYTE_FIRST;
    return plain ? cell : NO_CELL;
  }

  @Override
  int word(long[] image, int register) {
    long bits = image[cell];
    long raw = scaled == null ? RegisterCode.raw(bits, type) : scaled.number(bits);
    return swapped((int) (raw >>> shift(register)) & 0xFFFF);
  }

  @Override
  void write(byte[] bytes, int at, WriteBatch batch) throws Refusal {
    long bits = read(bytes, at);
    Refusal.unless(writable.admits(bits), Refusal.DEVICE_FAILURE);
    batch.put(cell, bits, 0);
  }

  /**
   * The value that registers hold.
   *
   * @throws Refusal when the type cannot be it
   */
  long read(byte[] bytes, int at) throws Refusal {
    long raw = 0;
    for (int i = 0; i < size(); i++) {
      raw |= (long) swapped(PduCheck.word(bytes, at + 2 * i)) << shift(i);
    }
    long bits = scaled == null ? RegisterCode.bits(raw, type) : scaled.bits(raw);
    Refusal.unless(RegisterCode.fits(bits, type), Refusal.DEVICE_FAILURE);
    return bits;
  }

  /** Only for what any 16 bits suit: the result is not known here and cannot be checked. */
  @Override
  void mask(int and, int or, WriteBatch batch) throws Refusal {
    boolean suits = RegisterCode.takesAnyRegister(type) && scaled == null;
    Refusal.unless(suits && writable.least() == null, Refusal.DEVICE_FAILURE);
    long keep = RegisterCode.bits(swapped(and), type); // sign-extended like the value itself
    batch.put(cell, RegisterCode.bits(swapped(or), type), keep);
  }

  private int shift(int register) {
    return RegisterCode.shift(register, size(), coding.words());
  }

  private int swapped(int word) {
    return coding.bytes() == ByteOrder.LOW_BYTE_FIRST ? RegisterCode.swapped(word) : word;
  }
}
