package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import org.objectweb.asm.Opcodes;

/** Compares two values of one type. NaN compares with nothing: an error. */
final class Comparison extends TwoOperands {
  private final Type compared;

  Comparison(Operator operator, Expression left, Expression right, SourceText source) {
    super(Type.BOOL, operator, left, right, source);
    this.compared = left.type();
  }

  @Override
  long bits(long[] cells, int at) {
    long a = left.bits(cells, at);
    long b = right.bits(cells, at);
    if (compared.isReal()) {
      return reals(cells, Double.longBitsToDouble(a), Double.longBitsToDouble(b));
    }
    return operator.holds(Order.of(compared, a, b)) ? 1 : 0;
  }

  private long reals(long[] cells, double a, double b) {
    if (Double.isNaN(a) || Double.isNaN(b)) {
      return Faults.raise(cells, place());
    }
    return operator.holds(Order.of(a, b)) ? 1 : 0;
  }

  @Override
  boolean failsItself() {
    return compared.isReal();
  }

  @Override
  public Structure structure() {
    return Typing.isQuantity(compared)
        ? new Structure.Comparison(left, operator.text(), right)
        : new Structure.Leaf();
  }

  @Override
  int ownBytes() {
    return 28;
  }

  @Override
  void emit(Code code) {
    if (compared.isReal()) {
      code.putReal(left);
      code.putReal(right);
      code.place(place());
      code.call(Comparison.class, method(), "(DD[JI)J");
      return;
    }
    putBoth(code);
    if (compared == Type.ULINT) {
      code.call(Long.class, "compareUnsigned", "(JJ)I");
    } else {
      code.op(Opcodes.LCMP);
    }
    code.truthOf(operator);
  }

  private String method() {
    return switch (operator) {
      case LESS -> "less";
      case GREATER -> "greater";
      case AT_MOST -> "atMost";
      case AT_LEAST -> "atLeast";
      case EQUAL -> "equal";
      default -> "unequal";
    };
  }

  // What generated code calls: both comparisons fail only for NaN.

  static long less(double a, double b, long[] cells, int place) {
    return a < b ? 1 : a >= b ? 0 : Faults.raise(cells, place);
  }

  static long greater(double a, double b, long[] cells, int place) {
    return a > b ? 1 : a <= b ? 0 : Faults.raise(cells, place);
  }

  static long atMost(double a, double b, long[] cells, int place) {
    return a <= b ? 1 : a > b ? 0 : Faults.raise(cells, place);
  }

  static long atLeast(double a, double b, long[] cells, int place) {
    return a >= b ? 1 : a < b ? 0 : Faults.raise(cells, place);
  }

  static long equal(double a, double b, long[] cells, int place) {
    return a == b ? 1 : a < b || a > b ? 0 : Faults.raise(cells, place);
  }

  static long unequal(double a, double b, long[] cells, int place) {
    return a == b ? 0 : a < b || a > b ? 1 : Faults.raise(cells, place);
  }
}
