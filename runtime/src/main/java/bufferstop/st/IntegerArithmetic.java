package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** {@code + - * / MOD} of two integers of one type, and {@code + -} of two TIMEs. */
final class IntegerArithmetic extends Expression {
  private final Operator operator;
  private final Expression left;
  private final Expression right;

  IntegerArithmetic(Operator operator, Expression left, Expression right, SourceText source) {
    super(left.type(), source);
    this.operator = operator;
    this.left = left;
    this.right = right;
  }

  @Override
  public long bits(long[] cells) {
    Type type = type();
    long a = left.bits(cells);
    long b = right.bits(cells);
    return switch (operator) {
      case PLUS -> Integers.plus(cells, type, a, b);
      case MINUS -> Integers.minus(cells, type, a, b);
      case TIMES -> Integers.times(cells, type, a, b);
      case DIVIDED -> Integers.divided(cells, type, a, b);
      case MODULO -> Integers.modulo(type, a, b);
      default -> throw new IllegalStateException("no integer arithmetic for " + operator);
    };
  }

  @Override
  List<Expression> operands() {
    return List.of(left, right);
  }
}
