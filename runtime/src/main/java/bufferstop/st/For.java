package bufferstop.st;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;

/**
 * FOR over an integer. Its bounds are evaluated once; with an error in one it does nothing. After
 * the last pass the variable has the first value beyond the end, or the last one where the type has
 * none beyond; after EXIT, that of the pass that was left.
 */
final class For implements Statement {
  /** Passes of one loop in one run of the program, or a slip would stop the scan for good. */
  static final int MOST_PASSES = 1_000_000;

  private final int control;
  private final Type type;
  private final Expression first;
  private final Expression last;
  private final long step;
  private final Statement body;
  private int passes;

  /**
   * A loop.
   *
   * @param first of the type of {@code control}, as {@code last}
   * @param step in the encoding of that type, not 0
   */
  For(Symbol control, Expression first, Expression last, long step, Statement body) {
    this.control = control.index();
    this.type = control.type();
    this.first = first;
    this.last = last;
    this.step = step;
    this.body = body;
  }

  /** A new run of the program begins. */
  void restart() {
    passes = 0;
  }

  @Override
  public boolean run(long[] cells) {
    long watched = Faults.watch(cells);
    long value = first.bits(cells);
    long end = last.bits(cells);
    if (Faults.failedSince(cells, watched)) {
      return false;
    }
    cells[control] = value;
    while (!isBeyond(value, end)) {
      if (passes == MOST_PASSES) {
        Faults.raise(cells);
        return false;
      }
      passes++;
      if (body.run(cells) || !hasNext(value)) {
        return false;
      }
      value += step;
      cells[control] = value;
    }
    return false;
  }

  private boolean isDown() {
    return type.isSigned() && step < 0;
  }

  private boolean isBeyond(long value, long end) {
    int order = type.compare(value, end);
    return isDown() ? order < 0 : order > 0;
  }

  /** Whether the type holds the value after this one; distances are unsigned, or LINT overflows. */
  private boolean hasNext(long value) {
    return isDown()
        ? Long.compareUnsigned(value - type.least(), -step) >= 0
        : Long.compareUnsigned(type.greatest() - value, step) >= 0;
  }

  @Override
  public void collectReads(List<Symbol> found) {
    first.collectReads(found);
    last.collectReads(found);
    body.collectReads(found);
  }
}
