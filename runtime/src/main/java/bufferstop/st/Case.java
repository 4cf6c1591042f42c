package bufferstop.st;

import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/**
 * CASE: runs the branch with a label that holds the selector, else the ELSE. A selector with an
 * error is held by no label.
 */
final class Case extends Statement {
  /** Most labels, so that the search and all branches have room in a method each. */
  static final int MOST_LABELS = 128;

  private static final int NONE = -1;

  private final Expression selector;
  private final List<Label> labels;
  private final List<Statement> branches;
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
   * @param labels in rising order, no two with a value in common, at most {@link #MOST_LABELS}
   * @param otherwise for what no label holds; may be empty
   */
  Case(Expression selector, List<Label> labels, List<Statement> branches, Statement otherwise) {
    this.selector = selector;
    this.labels = List.copyOf(labels);
    this.branches = List.copyOf(branches);
    this.otherwise = otherwise;
  }

  List<Label> labels() {
    return labels;
  }

  boolean isUnsigned() {
    return selector.type() == Type.ULINT;
  }

  @Override
  int run(long[] cells, int at) {
    long watched = Faults.watch(cells);
    long value = selector.bits(cells, at);
    boolean failed = Faults.failedSince(cells, watched);
    int branch = failed ? NONE : branchOf(value);
    return (branch == NONE ? otherwise : branches.get(branch)).run(cells, at);
  }

  private int branchOf(long value) {
    Type type = selector.type();
    for (Label label : labels) {
      if (type.compare(value, label.least) >= 0 && type.compare(value, label.greatest) <= 0) {
        return label.branch;
      }
    }
    return NONE;
  }

  @Override
  List<Node> parts() {
    List<Node> parts = new ArrayList<>();
    parts.add(selector);
    parts.addAll(branches);
    parts.add(otherwise);
    return parts;
  }

  @Override
  int ownBytes() {
    return 60 + 8 * branches.size();
  }

  @Override
  void emit(Code code) {
    org.objectweb.asm.Label end = new org.objectweb.asm.Label();
    org.objectweb.asm.Label none = new org.objectweb.asm.Label();
    var starts = new org.objectweb.asm.Label[branches.size()];
    for (int i = 0; i < starts.length; i++) {
      starts[i] = new org.objectweb.asm.Label();
    }
    emitSelector(code, none);
    code.branchOf(this);
    code.choose(starts, none);
    for (int i = 0; i < starts.length; i++) {
      code.label(starts[i]);
      code.put(branches.get(i));
      code.jump(Opcodes.GOTO, end);
    }
    code.label(none);
    code.put(otherwise);
    code.label(end);
  }

  /** Leaves the selector's value on the stack, or goes to the label when it has none. */
  private void emitSelector(Code code, org.objectweb.asm.Label none) {
    if (!selector.mayFail()) {
      code.put(selector);
      return;
    }
    code.loadLocal(code.putWatched(selector, none));
  }
}
