package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** NOT of a BOOL. */
final class Not extends Expression {
  private final Expression operand;

  Not(Expression operand, SourceText source) {
    super(Type.BOOL, source);
    this.operand = operand;
  }

  @Override
  public long bits(long[] cells) {
    return operand.truth(cells) ? 0 : 1;
  }

  @Override
  public Structure structure() {
    return new Structure.Not(operand);
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }
}
