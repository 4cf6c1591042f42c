package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;
import org.objectweb.asm.Opcodes;

/** NOT of a BOOL, or of a bit string bit by bit. */
final class Not extends Expression {
  private final Expression operand;

  Not(Expression operand, SourceText source) {
    super(operand.type(), source);
    this.operand = operand;
  }

  @Override
  long bits(long[] cells, int at) {
    return operand.bits(cells, at) ^ type().greatest();
  }

  @Override
  public Structure structure() {
    return type() == Type.BOOL ? new Structure.Not(operand) : new Structure.Leaf();
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
    code.push(type().greatest());
    code.op(Opcodes.LXOR);
  }
}
