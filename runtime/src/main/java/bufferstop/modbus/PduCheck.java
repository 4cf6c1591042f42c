package bufferstop.modbus;

/**
 * Judges the structure of a request on its raw bytes, before anything parses it: known function,
 * quantities, byte counts, coil value, exact length. Addresses are judged later, against the map.
 *
 * <p>Source of the limits: Modbus Application Protocol V1.1b3, 6.1 to 6.17 [re-read].
 */
final class PduCheck {
  private static final int MOST_READ_BITS = 2000;
  private static final int MOST_READ_REGISTERS = 125;
  private static final int MOST_WRITTEN_BITS = 1968;
  private static final int MOST_WRITTEN_REGISTERS = 123;
  private static final int MOST_WRITTEN_WITH_READ = 121;
  static final int GOOD = 0;

  private PduCheck() {}

  /**
   * The exception code a request deserves for its structure.
   *
   * @param from index of the function code
   * @param length of function code and data, at least 1
   * @return 0 when it has none
   */
  static int fault(byte[] bytes, int from, int length) {
    return switch (bytes[from] & 0xFF) {
      case FunctionCode.READ_COILS, FunctionCode.READ_DISCRETE_INPUTS ->
          unless(length == 5 && within(word(bytes, from + 3), MOST_READ_BITS));
      case FunctionCode.READ_HOLDING_REGISTERS, FunctionCode.READ_INPUT_REGISTERS ->
          unless(length == 5 && within(word(bytes, from + 3), MOST_READ_REGISTERS));
      case FunctionCode.WRITE_SINGLE_COIL ->
          unless(length == 5 && isCoilValue(word(bytes, from + 3)));
      case FunctionCode.WRITE_SINGLE_REGISTER -> unless(length == 5);
      case FunctionCode.WRITE_MULTIPLE_COILS ->
          unless(length >= 6 && coilsAddUp(bytes, from, length));
      case FunctionCode.WRITE_MULTIPLE_REGISTERS ->
          unless(
              length >= 6 && registersAddUp(bytes, from + 3, length - 6, MOST_WRITTEN_REGISTERS));
      case FunctionCode.MASK_WRITE_REGISTER -> unless(length == 7);
      case FunctionCode.READ_WRITE_MULTIPLE_REGISTERS ->
          unless(
              length >= 10
                  && within(word(bytes, from + 3), MOST_READ_REGISTERS)
                  && registersAddUp(bytes, from + 7, length - 10, MOST_WRITTEN_WITH_READ));
      case FunctionCode.ENCAPSULATED_INTERFACE -> Identification.fault(bytes, from, length);
      default -> Refusal.ILLEGAL_FUNCTION;
    };
  }

  private static int unless(boolean good) {
    return good ? GOOD : Refusal.ILLEGAL_VALUE;
  }

  private static boolean coilsAddUp(byte[] bytes, int from, int length) {
    int quantity = word(bytes, from + 3);
    int count = bytes[from + 5] & 0xFF;
    return within(quantity, MOST_WRITTEN_BITS)
        && count == (quantity + 7) / 8
        && count == length - 6;
  }

  /** Quantity, byte count and number of data bytes of registers to write. */
  private static boolean registersAddUp(byte[] bytes, int at, int dataLength, int most) {
    int quantity = word(bytes, at);
    int count = bytes[at + 2] & 0xFF;
    return within(quantity, most) && count == 2 * quantity && count == dataLength;
  }

  private static boolean isCoilValue(int value) {
    return value == 0 || value == 0xFF00;
  }

  private static boolean within(int quantity, int most) {
    return quantity >= 1 && quantity <= most;
  }

  static int word(byte[] bytes, int at) {
    return (bytes[at] & 0xFF) << 8 | bytes[at + 1] & 0xFF;
  }
}
