package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/** A whole expression as its reader gives it out: a BOOL in which an error was counted is FALSE. */
final class Whole extends Expression {
  private final Expression inner;

  Whole(Expression inner, SourceText source) {
    super(inner.type(), source);
    this.inner = inner;
  }

  @Override
  long bits(long[] cells, int at) {
    if (type() != Type.BOOL) {
      return inner.bits(cells, at);
    }
    long watched = Faults.watch(cells);
    long bits = inner.bits(cells, at);
    return Faults.failedSince(cells, watched) ? 0 : bits;
  }

  @Override
  public Structure structure() {
    return inner.structure();
  }

  @Override
  List<Expression> operands() {
    return List.of(inner);
  }

  @Override
  int ownBytes() {
    return 44;
  }

  @Override
  void emit(Code code) {
    if (type() != Type.BOOL || !inner.mayFail()) {
      code.put(inner);
      return;
    }
    int watched = code.local(2);
    int bits = code.local(2);
    Label good = new Label();
    code.errors();
    code.storeLocal(watched);
    code.put(inner);
    code.storeLocal(bits);
    code.errors();
    code.loadLocal(watched);
    code.op(Opcodes.LCMP);
    code.jump(Opcodes.IFEQ, good);
    code.push(0L);
    code.storeLocal(bits);
    code.label(good);
    code.loadLocal(bits);
  }
}
