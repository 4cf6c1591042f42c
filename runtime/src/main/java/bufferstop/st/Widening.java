package bufferstop.st;

import bufferstop.model.Type;
import java.util.List;

/** A value as the same value of a wider type. */
final class Widening extends Expression {
  private final Expression operand;
  private final boolean becomesReal;

  Widening(Expression operand, Type type) {
    super(type, operand.source());
    this.operand = operand;
    this.becomesReal = type.isReal() && operand.type().isInteger();
  }

  @Override
  public long bits(long[] cells) {
    long bits = operand.bits(cells);
    return becomesReal ? Double.doubleToLongBits(bits) : bits;
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }
}
