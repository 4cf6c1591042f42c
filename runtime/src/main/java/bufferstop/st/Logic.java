package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;

/** AND, XOR or OR of two BOOLs. Both sides are evaluated always. */
final class Logic extends Expression {
  private final Operator operator;
  private final Expression left;
  private final Expression right;

  Logic(Operator operator, Expression left, Expression right, SourceText source) {
    super(Type.BOOL, source);
    this.operator = operator;
    this.left = left;
    this.right = right;
  }

  @Override
  public long bits(long[] cells) {
    long a = left.bits(cells);
    long b = right.bits(cells);
    return switch (operator) {
      case AND -> a & b;
      case XOR -> a ^ b;
      default -> a | b;
    };
  }

  @Override
  public Structure structure() {
    if (operator == Operator.XOR) {
      return new Structure.Leaf();
    }
    List<Expression> parts = new ArrayList<>();
    flatten(parts);
    return operator == Operator.AND
        ? new Structure.And(List.copyOf(parts))
        : new Structure.Or(List.copyOf(parts));
  }

  private void flatten(List<Expression> parts) {
    for (Expression operand : operands()) {
      if (operand instanceof Logic logic && logic.operator == operator) {
        logic.flatten(parts);
      } else {
        parts.add(operand);
      }
    }
  }

  @Override
  List<Expression> operands() {
    return List.of(left, right);
  }
}
