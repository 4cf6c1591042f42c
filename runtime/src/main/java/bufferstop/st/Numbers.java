package bufferstop.st;

import bufferstop.model.Type;

/** Conversions between the encodings of {@link Type}, where Java's own differ or lose precision. */
final class Numbers {
  static final double MICROS_PER_SECOND = 1e6;
  static final long MICROS_PER_MILLI = 1000;
  private static final double TWO_TO_63 = 0x1p63;
  private static final double TWO_TO_64 = 0x1p64;

  private Numbers() {}

  /** A value as a double: TIME in seconds, BOOL as 0 or 1. */
  static double real(Type type, long bits) {
    return switch (type) {
      case REAL, LREAL -> Double.longBitsToDouble(bits);
      case TIME -> bits / MICROS_PER_SECOND;
      case ULINT -> ofUnsigned(bits);
      default -> bits;
    };
  }

  /** An integer as the nearest value of a real type. */
  static double ofInteger(Type from, long value, Type to) {
    if (to == Type.LREAL) {
      return from == Type.ULINT ? ofUnsigned(value) : value;
    }
    return from == Type.ULINT ? singleOfUnsigned(value) : (float) value;
  }

  /** The value rounded to what the real type can hold. */
  static double rounded(Type type, double value) {
    return type == Type.REAL ? (float) value : value;
  }

  /** Whether a real without fraction lies in the range of an integer type; never for NaN. */
  static boolean fits(Type type, double whole) {
    return switch (type) {
      case LINT -> whole >= -TWO_TO_63 && whole < TWO_TO_63;
      case ULINT -> whole >= 0 && whole < TWO_TO_64;
      default -> whole >= type.least() && whole <= type.greatest();
    };
  }

  /** A real without fraction that {@link #fits}, as an integer. */
  static long toInteger(double whole) {
    return whole < TWO_TO_63 ? (long) whole : (long) (whole - TWO_TO_63) ^ Long.MIN_VALUE;
  }

  /** Microseconds to the nearest millisecond, a tie to the even one. */
  static long nearestMilli(long micros) {
    long down = Math.floorDiv(micros, MICROS_PER_MILLI);
    long rest = Math.floorMod(micros, MICROS_PER_MILLI);
    boolean up = rest > MICROS_PER_MILLI / 2 || rest == MICROS_PER_MILLI / 2 && (down & 1) == 1;
    return up ? down + 1 : down;
  }

  static double ofUnsigned(long value) {
    return value >= 0 ? value : 2.0 * halved(value);
  }

  private static float singleOfUnsigned(long value) {
    return value >= 0 ? value : 2.0f * halved(value);
  }

  /** Half of it; the bit lost stays as the lowest one, so that rounding still sees it. */
  private static long halved(long value) {
    return value >>> 1 | value & 1;
  }
}
