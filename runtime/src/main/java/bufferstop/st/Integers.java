package bufferstop.st;

import bufferstop.model.Type;

/**
 * Exact arithmetic on integers and TIME: a result outside the type is counted as an error and gives
 * 0. Nothing here throws, wraps or allocates.
 */
final class Integers {
  private Integers() {}

  static long plus(long[] cells, Type type, long a, long b) {
    long sum = a + b;
    boolean lost =
        type == Type.ULINT ? Long.compareUnsigned(sum, a) < 0 : ((a ^ sum) & (b ^ sum)) < 0;
    return kept(cells, type, sum, lost);
  }

  static long minus(long[] cells, Type type, long a, long b) {
    long difference = a - b;
    boolean lost =
        type == Type.ULINT ? Long.compareUnsigned(a, b) < 0 : ((a ^ b) & (a ^ difference)) < 0;
    return kept(cells, type, difference, lost);
  }

  static long times(long[] cells, Type type, long a, long b) {
    long product = a * b;
    long high = Math.multiplyHigh(a, b);
    boolean lost =
        type == Type.ULINT
            ? high + (a >> 63 & b) + (b >> 63 & a) != 0 // the high half taken as unsigned
            : high != product >> 63;
    return kept(cells, type, product, lost);
  }

  /** Truncates toward zero. */
  static long divided(long[] cells, Type type, long a, long b) {
    if (b == 0) {
      return Faults.raise(cells);
    }
    if (type == Type.ULINT) {
      return Long.divideUnsigned(a, b);
    }
    return kept(cells, type, a / b, a == Long.MIN_VALUE && b == -1);
  }

  /** What {@link #divided} leaves; 0 for a divisor of 0, which is no error. */
  static long modulo(Type type, long a, long b) {
    if (b == 0) {
      return 0;
    }
    return type == Type.ULINT ? Long.remainderUnsigned(a, b) : a % b;
  }

  private static long kept(long[] cells, Type type, long result, boolean lost) {
    return lost || !type.holds(result) ? Faults.raise(cells) : result;
  }
}
