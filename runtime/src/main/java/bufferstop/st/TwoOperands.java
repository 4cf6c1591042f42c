package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** An operator between two operands. */
abstract class TwoOperands extends Expression {
  final Operator operator;
  final Expression left;
  final Expression right;

  TwoOperands(Type type, Operator operator, Expression left, Expression right, SourceText source) {
    super(type, source);
    this.operator = operator;
    this.left = left;
    this.right = right;
  }

  @Override
  final List<Expression> operands() {
    return List.of(left, right);
  }

  final void putBoth(Code code) {
    code.put(left);
    code.put(right);
  }

  final IllegalStateException unknown() {
    return new IllegalStateException("no such operation here: " + operator);
  }
}
