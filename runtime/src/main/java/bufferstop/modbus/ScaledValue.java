package bufferstop.modbus;

import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.Type;

/**
 * A quantity as a whole number of steps: value = number x factor. The value nearest to a number is
 * meant when reading (a tie goes to the even number); outside the bounds the sentinel shows, or the
 * number of the nearer bound. TIME counts in milliseconds. Pure functions.
 */
final class ScaledValue {
  private static final double MICROS_PER_MILLI = 1000;

  private final Type type;
  private final Scale scale;

  ScaledValue(Type type, Scale scale) {
    this.type = type;
    this.scale = scale;
  }

  /** The number for a cell. */
  long number(long bits) {
    double value = value(bits);
    boolean within = value >= scale.least() && value <= scale.greatest(); // FALSE for NaN
    if (!within && scale.sentinel() != null) {
      return scale.sentinel();
    }
    double bounded =
        Double.isNaN(value) ? 0 : Math.max(scale.least(), Math.min(scale.greatest(), value));
    return (long) Math.rint(bounded / scale.factor());
  }

  /**
   * The cell for a number a client wrote.
   *
   * @param raw bits of its registers
   * @throws Refusal when it is the sentinel, out of bounds, or between two values of an integer
   */
  long bits(long raw) throws Refusal {
    long number = RegisterCode.bits(raw, scale.as());
    boolean sentinel = scale.sentinel() != null && scale.sentinel() == number;
    double value = number * scale.factor();
    boolean within = value >= scale.least() && value <= scale.greatest();
    Refusal.unless(
        within && !sentinel && RegisterCode.fits(number, scale.as()), Refusal.DEVICE_FAILURE);
    if (type == Type.REAL) {
      return Double.doubleToLongBits((float) value);
    }
    if (type == Type.LREAL) {
      return Double.doubleToLongBits(value);
    }
    double whole = type == Type.TIME ? value * MICROS_PER_MILLI : value;
    Refusal.unless(isWhole(whole), Refusal.DEVICE_FAILURE);
    return (long) Math.rint(whole);
  }

  /** But for the rounding of the factor itself: 3 x 0.1 is meant to be no whole number, 30 is. */
  private static boolean isWhole(double value) {
    return Math.abs(value - Math.rint(value)) <= 1e-9 * Math.max(1, Math.abs(value));
  }

  private double value(long bits) {
    return switch (type) {
      case REAL, LREAL -> Double.longBitsToDouble(bits);
      case ULINT -> unsigned(bits);
      case TIME -> bits / MICROS_PER_MILLI;
      default -> bits;
    };
  }

  private static double unsigned(long bits) {
    double half = bits >>> 1;
    return bits >= 0 ? bits : half * 2 + (bits & 1);
  }
}
