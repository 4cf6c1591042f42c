package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** MIN or MAX of two or more values of one type. Of equal ones the first is taken. */
final class Extreme extends Expression {
  private final boolean greatest;
  private final Expression[] operands;

  /** With MAX when {@code greatest}, else MIN. */
  Extreme(boolean greatest, List<Expression> operands, SourceText source) {
    super(operands.get(0).type(), source);
    this.greatest = greatest;
    this.operands = operands.toArray(Expression[]::new);
  }

  @Override
  long bits(long[] cells, int at) {
    long best = operands[0].bits(cells, at);
    for (int i = 1; i < operands.length; i++) {
      best = better(best, operands[i].bits(cells, at), type(), greatest);
    }
    return type().isReal() ? number(best, cells, place()) : best;
  }

  /** The better of two; NaN when one of them is. */
  static long better(long best, long other, Type type, boolean greatest) {
    if (type.isReal()) {
      double a = Double.longBitsToDouble(best);
      double b = Double.longBitsToDouble(other);
      return Double.isNaN(b) || (greatest ? b > a : b < a) ? other : best;
    }
    int order = Order.of(type, other, best);
    return (greatest ? order > 0 : order < 0) ? other : best;
  }

  static long number(long bits, long[] cells, int place) {
    return Double.isNaN(Double.longBitsToDouble(bits)) ? Faults.raise(cells, place) : bits;
  }

  @Override
  boolean failsItself() {
    return type().isReal();
  }

  @Override
  List<Expression> operands() {
    return List.of(operands);
  }

  @Override
  int ownBytes() {
    return 12 + 8 * operands.length;
  }

  @Override
  void emit(Code code) {
    code.put(operands[0]);
    for (int i = 1; i < operands.length; i++) {
      code.put(operands[i]);
      code.push(type());
      code.push(greatest ? 1 : 0);
      code.call(Extreme.class, "better", "(JJLbufferstop/model/Type;Z)J");
    }
    if (type().isReal()) {
      code.place(place());
      code.call(Extreme.class, "number", "(J[JI)J");
    }
  }
}
