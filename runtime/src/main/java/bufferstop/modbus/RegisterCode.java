package bufferstop.modbus;

import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Type;

/**
 * How a cell's value looks in registers. Pure functions; bytes of a register are high first unless
 * they are swapped.
 */
final class RegisterCode {
  private static final long MICROS_PER_MILLI = 1000;

  private RegisterCode() {}

  /** The value as one number, lowest register in the lowest 16 bits. */
  static long raw(long bits, Type type) {
    return switch (type) {
      case REAL -> Float.floatToIntBits((float) Double.longBitsToDouble(bits));
      case TIME -> saturated(bits / MICROS_PER_MILLI);
      default -> bits;
    };
  }

  private static long saturated(long millis) {
    return Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, millis));
  }

  /** The cell for a number written by a client; {@link #fits} says whether the type may hold it. */
  static long bits(long raw, Type type) {
    return switch (type) {
      case BOOL, USINT, UINT -> raw & 0xFFFF;
      case SINT, INT -> (short) raw;
      case DINT -> (int) raw;
      case UDINT -> raw & 0xFFFF_FFFFL;
      case LINT, ULINT, LREAL -> raw; // NaN is refused before it reaches a cell
      case REAL -> Double.doubleToLongBits(Float.intBitsToFloat((int) raw));
      case TIME -> (int) raw * MICROS_PER_MILLI;
    };
  }

  /** Whether every 16 bits are a value of the type. */
  static boolean takesAnyRegister(Type type) {
    return type == Type.INT || type == Type.UINT;
  }

  /** The two bytes of a register exchanged. */
  static int swapped(int word) {
    return word >> 8 & 0xFF | (word & 0xFF) << 8;
  }

  /** Types narrower than their register cannot hold everything that it can. */
  static boolean fits(long bits, Type type) {
    return type.isReal() || type.holds(bits);
  }

  /**
   * Which 16 bits of a number travel in one of its registers.
   *
   * @param index of the register within the value, from 0
   * @return distance of its lowest bit
   */
  static int shift(int index, int registers, WordOrder order) {
    return 16 * (order == WordOrder.LOW_WORD_FIRST ? index : registers - 1 - index);
  }
}
