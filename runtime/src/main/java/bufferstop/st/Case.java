package bufferstop.st;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;

/**
 * CASE: runs the branch with a label that holds the selector, else the ELSE. A selector with an
 * error is held by no label.
 */
final class Case implements Statement {
  private final Expression selector;
  private final Type type;
  private final long[] least;
  private final long[] greatest;
  private final int[] branch;
  private final Statement[] branches;
  private final Statement otherwise;

  /**
   * A label.
   *
   * @param greatest the same as {@code least} for a single value
   * @param branch index of what it leads to
   * @param syntax where it is written
   */
  record Label(long least, long greatest, int branch, Syntax syntax) {}

  /**
   * A CASE.
   *
   * @param labels in rising order, no two with a value in common
   * @param otherwise for what no label holds; may be empty
   */
  Case(Expression selector, List<Label> labels, List<Statement> branches, Statement otherwise) {
    this.selector = selector;
    this.type = selector.type();
    this.least = labels.stream().mapToLong(Label::least).toArray();
    this.greatest = labels.stream().mapToLong(Label::greatest).toArray();
    this.branch = labels.stream().mapToInt(Label::branch).toArray();
    this.branches = branches.toArray(Statement[]::new);
    this.otherwise = otherwise;
  }

  @Override
  public boolean run(long[] cells) {
    long watched = Faults.watch(cells);
    long value = selector.bits(cells);
    boolean failed = Faults.failedSince(cells, watched);
    return (failed ? otherwise : chosen(value)).run(cells);
  }

  private Statement chosen(long value) {
    int from = 0;
    int to = least.length - 1;
    while (from <= to) {
      int middle = (from + to) >>> 1;
      if (type.compare(value, least[middle]) < 0) {
        to = middle - 1;
      } else if (type.compare(value, greatest[middle]) > 0) {
        from = middle + 1;
      } else {
        return branches[branch[middle]];
      }
    }
    return otherwise;
  }

  @Override
  public void collectReads(List<Symbol> found) {
    selector.collectReads(found);
    for (Statement one : branches) {
      one.collectReads(found);
    }
    otherwise.collectReads(found);
  }
}
