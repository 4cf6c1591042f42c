package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** Compares two values of one type. NaN compares with nothing: an error. */
final class Comparison extends Expression {
  private final Operator operator;
  private final Expression left;
  private final Expression right;
  private final Type compared;

  Comparison(Operator operator, Expression left, Expression right, SourceText source) {
    super(Type.BOOL, source);
    this.operator = operator;
    this.left = left;
    this.right = right;
    this.compared = left.type();
  }

  @Override
  public long bits(long[] cells) {
    long a = left.bits(cells);
    long b = right.bits(cells);
    if (compared.isReal()) {
      return reals(cells, Double.longBitsToDouble(a), Double.longBitsToDouble(b));
    }
    return holds(Order.of(compared, a, b)) ? 1 : 0;
  }

  private long reals(long[] cells, double a, double b) {
    if (Double.isNaN(a) || Double.isNaN(b)) {
      return Faults.raise(cells);
    }
    return holds(Order.of(a, b)) ? 1 : 0;
  }

  private boolean holds(int order) {
    return switch (operator) {
      case LESS -> order < 0;
      case GREATER -> order > 0;
      case AT_MOST -> order <= 0;
      case AT_LEAST -> order >= 0;
      case EQUAL -> order == 0;
      default -> order != 0;
    };
  }

  @Override
  public Structure structure() {
    return compared == Type.BOOL
        ? new Structure.Leaf()
        : new Structure.Comparison(left, operator.text(), right);
  }

  @Override
  List<Expression> operands() {
    return List.of(left, right);
  }
}
