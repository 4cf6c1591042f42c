package bufferstop.st;

import bufferstop.model.Type;

/**
 * Exact arithmetic on integers and TIME: a result outside the type is counted as an error and gives
 * 0. Nothing here throws, wraps or allocates.
 */
final class Integers {
  private Integers() {}

  static long plus(long a, long b, Type type, long[] cells, int place) {
    long sum = a + b;
    boolean lost =
        type == Type.ULINT ? Long.compareUnsigned(sum, a) < 0 : ((a ^ sum) & (b ^ sum)) < 0;
    return kept(sum, lost, type, cells, place);
  }

  static long minus(long a, long b, Type type, long[] cells, int place) {
    long difference = a - b;
    boolean lost =
        type == Type.ULINT ? Long.compareUnsigned(a, b) < 0 : ((a ^ b) & (a ^ difference)) < 0;
    return kept(difference, lost, type, cells, place);
  }

  static long times(long a, long b, Type type, long[] cells, int place) {
    long product = a * b;
    long high = Math.multiplyHigh(a, b);
    boolean lost =
        type == Type.ULINT
            ? high + (a >> 63 & b) + (b >> 63 & a) != 0 // the high half taken as unsigned
            : high != product >> 63;
    return kept(product, lost, type, cells, place);
  }

  /** Truncates toward zero. */
  static long divided(long a, long b, Type type, long[] cells, int place) {
    if (b == 0) {
      return Faults.raise(cells, place);
    }
    if (type == Type.ULINT) {
      return Long.divideUnsigned(a, b);
    }
    return kept(a / b, a == Long.MIN_VALUE && b == -1, type, cells, place);
  }

  /** What {@link #divided} leaves; 0 for a divisor of 0, which is no error. */
  static long modulo(long a, long b, Type type) {
    if (b == 0) {
      return 0;
    }
    return type == Type.ULINT ? Long.remainderUnsigned(a, b) : a % b;
  }

  /** A result that fits 64 bits and must fit the type. */
  static long within(long result, long least, long greatest, long[] cells, int place) {
    return result >= least && result <= greatest ? result : Faults.raise(cells, place);
  }

  private static long kept(long result, boolean lost, Type type, long[] cells, int place) {
    return lost || !type.holds(result) ? Faults.raise(cells, place) : result;
  }
}
