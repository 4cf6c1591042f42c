package bufferstop.modbus;

import bufferstop.model.Point;
import bufferstop.model.Serving.Sections;
import java.util.Arrays;

/** One register of which some bits are BOOLs of their own; the others are 0. */
final class BitsSlot extends Slot {
  private final Part[] parts;
  private int mapped; // the bits that stand for something

  /**
   * One of its bits.
   *
   * @param bit 0, the lowest, to 15
   * @param writable the point a client may write here, or null
   */
  record Part(int bit, int cell, String section, Point writable) {}

  BitsSlot(int address, Part... parts) {
    super(address, 1);
    this.parts = parts;
    for (Part part : parts) {
      mapped |= 1 << part.bit();
    }
  }

  @Override
  boolean isWritable() {
    return isWritableUnder(0);
  }

  @Override
  boolean isWritableUnder(int and) {
    return Arrays.stream(parts).anyMatch(p -> p.writable() != null)
        && Arrays.stream(parts).allMatch(p -> p.writable() != null || (and >> p.bit() & 1) == 1);
  }

  @Override
  boolean isOnlyIn(Sections sections) {
    return Arrays.stream(parts).allMatch(p -> sections.has(p.section()));
  }

  @Override
  int word(long[] image, int register) {
    int word = 0;
    for (Part part : parts) {
      word |= (int) image[part.cell()] << part.bit();
    }
    return word;
  }

  @Override
  void write(byte[] bytes, int at, WriteBatch batch) throws Refusal {
    mask(0, PduCheck.word(bytes, at), batch);
  }

  /** Bits that stand for nothing stay 0: a 1 for one of them is a value nobody can take. */
  @Override
  void mask(int and, int or, WriteBatch batch) throws Refusal {
    Refusal.unless((or & ~and & ~mapped & 0xFFFF) == 0, Refusal.DEVICE_FAILURE);
    for (Part part : parts) {
      if ((and >> part.bit() & 1) == 0) {
        batch.put(part.cell(), or >> part.bit() & 1, 0);
      }
    }
  }
}
