package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.List;

/** Unary minus of a number or TIME. */
final class Negation extends Expression {
  private final Expression operand;

  Negation(Expression operand, SourceText source) {
    super(operand.type(), source);
    this.operand = operand;
  }

  @Override
  public long bits(long[] cells) {
    long bits = operand.bits(cells);
    if (type().isReal()) {
      return Double.doubleToLongBits(-Double.longBitsToDouble(bits));
    }
    return Integers.minus(cells, type(), 0, bits);
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }
}
