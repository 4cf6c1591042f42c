package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.List;
import org.objectweb.asm.Opcodes;

/** Unary minus of a number or TIME. */
final class Negation extends Expression {
  private final Expression operand;

  Negation(Expression operand, SourceText source) {
    super(operand.type(), source);
    this.operand = operand;
  }

  @Override
  long bits(long[] cells, int at) {
    long bits = operand.bits(cells, at);
    return type().isReal()
        ? bits ^ Long.MIN_VALUE // the sign's bit
        : Integers.minus(0, bits, type(), cells, place());
  }

  @Override
  boolean failsItself() {
    return !type().isReal();
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }

  @Override
  int ownBytes() {
    return 16;
  }

  @Override
  void emit(Code code) {
    if (type().isReal()) {
      code.put(operand);
      code.push(Long.MIN_VALUE);
      code.op(Opcodes.LXOR);
      return;
    }
    code.push(0L);
    code.put(operand);
    code.push(type());
    code.place(place());
    code.call(Integers.class, "minus", "(JJLbufferstop/model/Type;[JI)J");
  }
}
