package bufferstop.modbus;

import bufferstop.model.Serving.Sections;

/** Addresses that read 0 and take no write. */
final class GapSlot extends Slot {

  GapSlot(int address, int size) {
    super(address, size);
  }

  @Override
  boolean isWritable() {
    return false;
  }

  @Override
  boolean isOnlyIn(Sections sections) {
    return true; // there is nothing to see
  }

  @Override
  int word(long[] image, int register) {
    return 0;
  }

  @Override
  void write(byte[] bytes, int at, WriteBatch batch) {
    throw new IllegalStateException("a gap is not writable");
  }

  @Override
  void mask(int and, int or, WriteBatch batch) {
    throw new IllegalStateException("a gap is not writable");
  }
}
