package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** ABS of any number. */
final class Absolute extends Expression {
  private final Expression operand;

  Absolute(Expression operand, SourceText source) {
    super(operand.type(), source);
    this.operand = operand;
  }

  @Override
  public long bits(long[] cells) {
    Type type = type();
    if (type.isReal()) {
      return Reals.kept(cells, type, Math.abs(operand.real(cells)));
    }
    long value = operand.bits(cells);
    return type.isSigned() && value < 0 ? Integers.minus(cells, type, 0, value) : value;
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }
}
