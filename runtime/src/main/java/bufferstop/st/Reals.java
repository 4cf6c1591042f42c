package bufferstop.st;

import bufferstop.model.Type;

/** Keeps reals finite: what is not is counted as an error and gives 0. */
final class Reals {
  private Reals() {}

  /** A result rounded to its type, as bits. */
  static long kept(Type type, double result, long[] cells, int place) {
    return type == Type.REAL ? keptSingle(result, cells, place) : kept(result, cells, place);
  }

  /** An LREAL as bits. */
  static long kept(double result, long[] cells, int place) {
    return Math.abs(result) <= Double.MAX_VALUE
        ? Double.doubleToRawLongBits(result)
        : Faults.raise(cells, place);
  }

  /** A result rounded to REAL, as bits. */
  static long keptSingle(double result, long[] cells, int place) {
    return kept((float) result, cells, place);
  }

  static long divided(double a, double b, long[] cells, int place) {
    return b == 0 ? Faults.raise(cells, place) : kept(a / b, cells, place);
  }

  static long dividedSingle(double a, double b, long[] cells, int place) {
    return b == 0 ? Faults.raise(cells, place) : keptSingle(a / b, cells, place);
  }

  /** A result without fraction as an integer or as microseconds. */
  static long toInteger(Type type, double whole, long[] cells, int place) {
    Type range = type == Type.TIME ? Type.LINT : type;
    return Numbers.fits(range, whole) ? Numbers.toInteger(whole) : Faults.raise(cells, place);
  }
}
