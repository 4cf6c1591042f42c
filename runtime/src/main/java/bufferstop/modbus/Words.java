package bufferstop.modbus;

/** Sixteen bits in two bytes, the high one first. */
final class Words {
  private Words() {}

  static void put(byte[] bytes, int at, int word) {
    bytes[at] = (byte) (word >> 8);
    bytes[at + 1] = (byte) word;
  }
}
