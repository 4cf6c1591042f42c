package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;
import org.objectweb.asm.Opcodes;

/** NOT of a BOOL. */
final class Not extends Expression {
  private final Expression operand;

  Not(Expression operand, SourceText source) {
    super(Type.BOOL, source);
    this.operand = operand;
  }

  @Override
  long bits(long[] cells, int at) {
    return operand.bits(cells, at) ^ 1;
  }

  @Override
  public Structure structure() {
    return new Structure.Not(operand);
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }

  @Override
  int ownBytes() {
    return 2;
  }

  @Override
  void emit(Code code) {
    code.put(operand);
    code.push(1L);
    code.op(Opcodes.LXOR);
  }
}
