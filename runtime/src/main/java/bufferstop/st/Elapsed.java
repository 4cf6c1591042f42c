package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import java.util.List;
import org.objectweb.asm.Opcodes;

/** The time that has passed since the moment in a cell. Logical time never overflows. */
final class Elapsed extends Expression {
  private final Symbol since;

  Elapsed(Symbol since) {
    super(Type.TIME, SourceText.of("scan.time - " + since.name()));
    this.since = since;
  }

  @Override
  long bits(long[] cells, int at) {
    return cells[SystemCells.TIME] - cells[Read.cell(since, at)];
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
    code.cells();
    code.push(SystemCells.TIME);
    code.op(Opcodes.LALOAD);
    code.load(since);
    code.op(Opcodes.LSUB);
  }

  @Override
  boolean readsAnything() {
    return true;
  }
}
