package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.List;

/**
 * {@code + - * /} of two reals of one type, and {@code **} of a real and any number. Single
 * precision is computed in double and rounded once, which gives the correctly rounded single for
 * the first four.
 */
final class RealArithmetic extends Expression {
  private final Operator operator;
  private final Expression left;
  private final Expression right;

  RealArithmetic(Operator operator, Expression left, Expression right, SourceText source) {
    super(left.type(), source);
    this.operator = operator;
    this.left = left;
    this.right = right;
  }

  @Override
  public long bits(long[] cells) {
    double a = left.real(cells);
    double b = right.real(cells);
    return switch (operator) {
      case PLUS -> Reals.kept(cells, type(), a + b);
      case MINUS -> Reals.kept(cells, type(), a - b);
      case TIMES -> Reals.kept(cells, type(), a * b);
      case DIVIDED -> b == 0 ? Faults.raise(cells) : Reals.kept(cells, type(), a / b);
      case POWER -> Reals.kept(cells, type(), StrictMath.pow(a, b));
      default -> throw new IllegalStateException("no real arithmetic for " + operator);
    };
  }

  @Override
  List<Expression> operands() {
    return List.of(left, right);
  }
}
