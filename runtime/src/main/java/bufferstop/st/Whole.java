package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** A whole expression as its reader gives it out: a BOOL in which an error was counted is FALSE. */
final class Whole extends Expression {
  private final Expression inner;

  Whole(Expression inner, SourceText source) {
    super(inner.type(), source);
    this.inner = inner;
  }

  @Override
  public long bits(long[] cells) {
    if (type() != Type.BOOL) {
      return inner.bits(cells);
    }
    long watched = Faults.watch(cells);
    long bits = inner.bits(cells);
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
}
