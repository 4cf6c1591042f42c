package bufferstop.modbus;

import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.Type;

/**
 * A quantity as a number of steps: value = number x factor. Of whole steps the nearest is meant
 * when reading (a tie goes to the even number); outside the bounds the sentinel shows, or the
 * number of the nearer bound. TIME counts in milliseconds. Pure functions.
 */
final class ScaledValue {
  private static final double MICROS_PER_MILLI = 1000;

  private final Type type;
  private final Scale scale;
  private final double least; // bounds as numbers, since a factor such as 0.1 is no exact one
  private final double greatest;

  ScaledValue(Type type, Scale scale) {
    this.type = type;
    this.scale = scale;
    least = steps(scale.least());
    greatest = steps(scale.greatest());
  }

  /** The number for a cell. */
  long number(long bits) {
    double number = steps(value(bits));
    boolean within = number >= least && number <= greatest; // FALSE for NaN
    if (!within && scale.sentinel() != null) {
      return scale.sentinel();
    }
    double shown = Double.isNaN(number) ? 0 : Math.max(least, Math.min(greatest, number));
    return isReal() ? Float.floatToIntBits((float) shown) : (long) shown;
  }

  private boolean isReal() {
    return scale.as() == Type.REAL;
  }

  private double steps(double value) {
    double steps = value / scale.factor();
    return isReal() ? steps : Math.rint(steps);
  }

  /**
   * The cell for a number a client wrote.
   *
   * @param raw bits of its registers
   * @throws Refusal when it is the sentinel, out of bounds, or between two values of an integer
   */
  long bits(long raw) throws Refusal {
    long encoded = RegisterCode.bits(raw, scale.as());
    double number = isReal() ? Double.longBitsToDouble(encoded) : encoded;
    boolean sentinel = scale.sentinel() != null && scale.sentinel() == encoded;
    double value = number * scale.factor();
    boolean within = number >= least && number <= greatest;
    Refusal.unless(
        within && !sentinel && RegisterCode.fits(encoded, scale.as()), Refusal.DEVICE_FAILURE);
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
