package bufferstop.modbus;

import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.Serving.Sections;

/** Addresses that hold what never changes, in a gap 0, and take no write. */
final class FixedSlot extends Slot {
  private final int[] words;

  FixedSlot(Fixed fixed) {
    super(fixed.address(), fixed.size());
    words = fixed.words().stream().mapToInt(Integer::intValue).toArray();
  }

  @Override
  boolean isWritable() {
    return false;
  }

  @Override
  boolean isOnlyIn(Sections sections) {
    return words.length == 0 || sections.has(""); // in a gap there is nothing to see
  }

  @Override
  int word(long[] image, int register) {
    return register < words.length ? words[register] : 0;
  }

  @Override
  void write(byte[] bytes, int at, WriteBatch batch) {
    throw new IllegalStateException("what never changes is not writable");
  }

  @Override
  void mask(int and, int or, WriteBatch batch) {
    throw new IllegalStateException("what never changes is not writable");
  }
}
