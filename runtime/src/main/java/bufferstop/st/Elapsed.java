package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;
import org.objectweb.asm.Opcodes;

/** The time between the moments in two cells. Logical time never overflows. */
final class Elapsed extends Expression {
  private final Symbol since;
  private final Symbol until;

  Elapsed(Symbol since, Symbol until) {
    super(Type.TIME, SourceText.of(until.name() + " - " + since.name()));
    this.since = since;
    this.until = until;
  }

  @Override
  long bits(long[] cells, int at) {
    return cells[Read.cell(until, at)] - cells[Read.cell(since, at)];
  }

  @Override
  List<Expression> operands() {
    return List.of();
  }

  @Override
  int ownBytes() {
    return 14;
  }

  @Override
  void emit(Code code) {
    code.load(until);
    code.load(since);
    code.op(Opcodes.LSUB);
  }

  @Override
  boolean readsAnything() {
    return true;
  }
}
