package bufferstop.st;

import bufferstop.model.Enumeration;
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
  public Enumeration enumeration() {
    return inner.enumeration();
  }

  @Override
  public String text() {
    return inner.text();
  }

  @Override
  int capacity() {
    return inner.capacity();
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
    Label failed = new Label();
    Label end = new Label();
    code.loadLocal(code.putWatched(inner, failed));
    code.jump(Opcodes.GOTO, end);
    code.label(failed);
    code.push(0L);
    code.label(end);
  }
}
