package bufferstop.st;

import bufferstop.model.Type;

/** Which of two values is less: negative, 0 or positive. */
final class Order {
  private Order() {}

  /** Two values of one type; no NaN among them. */
  static int of(Type type, long a, long b) {
    return switch (type) {
      case REAL, LREAL -> of(Double.longBitsToDouble(a), Double.longBitsToDouble(b));
      case ULINT, LWORD -> Long.compareUnsigned(a, b);
      default -> Long.compare(a, b);
    };
  }

  /** Two reals; unlike {@link Double#compare} 0.0 and -0.0 are equal. */
  static int of(double a, double b) {
    return a < b ? -1 : a > b ? 1 : 0;
  }
}
