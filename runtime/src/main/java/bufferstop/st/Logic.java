package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.Opcodes;

/** AND, XOR or OR of two BOOLs. Both sides are evaluated always. */
final class Logic extends TwoOperands {

  Logic(Operator operator, Expression left, Expression right, SourceText source) {
    super(Type.BOOL, operator, left, right, source);
  }

  @Override
  long bits(long[] cells, int at) {
    long a = left.bits(cells, at);
    long b = right.bits(cells, at);
    return switch (operator) {
      case AND -> a & b;
      case XOR -> a ^ b;
      default -> a | b;
    };
  }

  @Override
  int ownBytes() {
    return 1;
  }

  @Override
  void emit(Code code) {
    putBoth(code);
    code.op(
        switch (operator) {
          case AND -> Opcodes.LAND;
          case XOR -> Opcodes.LXOR;
          default -> Opcodes.LOR;
        });
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
}
