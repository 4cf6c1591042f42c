package bufferstop.st;

import bufferstop.model.Type;

/** Keeps reals finite: what is not is counted as an error and gives 0. */
final class Reals {
  private Reals() {}

  /** A result rounded to its type, as bits. */
  static long kept(long[] cells, Type type, double result) {
    double rounded = Numbers.rounded(type, result);
    return isFinite(rounded) ? Double.doubleToLongBits(rounded) : Faults.raise(cells);
  }

  /** A result without fraction as an integer or as microseconds. */
  static long toInteger(long[] cells, Type type, double whole) {
    Type range = type == Type.TIME ? Type.LINT : type;
    return Numbers.fits(range, whole) ? Numbers.toInteger(whole) : Faults.raise(cells);
  }

  private static boolean isFinite(double value) {
    return Math.abs(value) <= Double.MAX_VALUE;
  }
}
