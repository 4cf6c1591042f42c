package bufferstop.st;

import bufferstop.model.Type;
import java.util.List;
import org.objectweb.asm.Opcodes;

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
  long bits(long[] cells, int at) {
    long bits = operand.bits(cells, at);
    return becomesReal ? Double.doubleToRawLongBits(bits) : bits;
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }

  @Override
  int ownBytes() {
    return 4;
  }

  @Override
  void emit(Code code) {
    code.put(operand);
    if (becomesReal) {
      code.op(Opcodes.L2D);
      code.asBits();
    }
  }
}
