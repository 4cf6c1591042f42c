package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.List;

/** MIN or MAX of two or more values of one type. */
final class Extreme extends Expression {
  private final int sign;
  private final Expression[] operands;

  /** With MAX when {@code greatest}, else MIN. */
  Extreme(boolean greatest, List<Expression> operands, SourceText source) {
    super(operands.get(0).type(), source);
    this.sign = greatest ? 1 : -1;
    this.operands = operands.toArray(Expression[]::new);
  }

  @Override
  public long bits(long[] cells) {
    long best = 0;
    boolean isNumber = true;
    for (int i = 0; i < operands.length; i++) {
      long bits = operands[i].bits(cells);
      isNumber &= !(type().isReal() && Double.isNaN(Double.longBitsToDouble(bits)));
      if (i == 0 || sign * Order.of(type(), bits, best) > 0) {
        best = bits;
      }
    }
    return isNumber ? best : Faults.raise(cells);
  }

  @Override
  List<Expression> operands() {
    return List.of(operands);
  }
}
