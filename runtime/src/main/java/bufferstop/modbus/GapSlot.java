package bufferstop.modbus;

import bufferstop.model.Serving.Sections;
import java.util.Arrays;

/** Addresses that read 0 and take no write. */
final class GapSlot extends Slot {

  /**
   * @param bits whether each address needs a cell to be copied
   */
  GapSlot(boolean bits, int address, int size) {
    super(address, size, none(bits ? size : 0));
  }

  private static int[] none(int count) {
    int[] cells = new int[count];
    Arrays.fill(cells, NO_CELL);
    return cells;
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
  int word(long[] values, int from, int register) {
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
