package bufferstop.st;

import bufferstop.model.Symbol;
import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import java.util.List;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/**
 * FOR over an integer. Its bounds are evaluated once; with an error in one it does nothing. After
 * the last pass the variable has the first value beyond the end, or the last one where the type has
 * none beyond; after EXIT, that of the pass that was left.
 */
final class For extends Statement {
  /** Passes of all loops in one scan, or a slip would stop the scan for good. */
  static final int MOST_PASSES = 1_000_000;

  private final Symbol control;
  private final Type type;
  private final Expression first;
  private final Expression last;
  private final long step;
  private final Statement body;
  private final int place;

  /**
   * A loop.
   *
   * @param first of the type of {@code control}, as {@code last}
   * @param step in the encoding of that type, not 0
   * @param place number of its place, for the error of too many passes
   */
  For(Symbol control, Expression first, Expression last, long step, Statement body, int place) {
    this.control = control;
    this.type = control.type();
    this.first = first;
    this.last = last;
    this.step = step;
    this.body = body;
    this.place = place;
  }

  @Override
  int run(long[] cells, int at) {
    long watched = Faults.watch(cells);
    long value = first.bits(cells, at);
    long end = last.bits(cells, at);
    if (Faults.failedSince(cells, watched)) {
      return ON;
    }
    cells[Read.cell(control, at)] = value;
    while (!isBeyond(value, end, step, type) && mayPass(cells, place)) {
      int how = body.run(cells, at);
      if (how == EXIT || how == RETURN) {
        return how == EXIT ? ON : how;
      }
      if (!hasNext(value, step, type)) {
        return ON;
      }
      value += step;
      cells[Read.cell(control, at)] = value;
    }
    return ON;
  }

  /** Whether a loop may make one more pass in this scan; if not, an error is counted. */
  static boolean mayPass(long[] cells, int place) {
    if (cells[SystemCells.PASSES] >= MOST_PASSES) {
      Faults.raise(cells, place);
      return false;
    }
    cells[SystemCells.PASSES]++;
    return true;
  }

  private static boolean isDown(long step, Type type) {
    return type.isSigned() && step < 0;
  }

  static boolean isBeyond(long value, long end, long step, Type type) {
    int order = type.compare(value, end);
    return isDown(step, type) ? order < 0 : order > 0;
  }

  /** Whether the type holds the value after this one; distances are unsigned, or LINT overflows. */
  static boolean hasNext(long value, long step, Type type) {
    return isDown(step, type)
        ? Long.compareUnsigned(value - type.least(), -step) >= 0
        : Long.compareUnsigned(type.greatest() - value, step) >= 0;
  }

  /** An EXIT or CONTINUE in it is of this loop. */
  @Override
  boolean mayEnd(int how) {
    return how == RETURN && body.mayEnd(how);
  }

  @Override
  List<Node> parts() {
    return List.of(first, last, body);
  }

  @Override
  int ownBytes() {
    return 120;
  }

  @Override
  void emit(Code code) {
    int value = code.local(2);
    int end = code.local(2);
    Label again = new Label();
    Label next = new Label();
    Label out = new Label();
    int watched = code.watch();
    code.put(first);
    code.storeLocal(value);
    code.put(last);
    code.storeLocal(end);
    code.jumpIfFailed(watched, out);
    emitControl(code, value);
    code.label(again);
    code.loadLocal(value);
    code.loadLocal(end);
    emitStep(code, "isBeyond", "(JJJLbufferstop/model/Type;)Z");
    code.jump(Opcodes.IFNE, out);
    code.place(place);
    code.call(For.class, "mayPass", "([JI)Z");
    code.jump(Opcodes.IFEQ, out);
    code.loop(out, next, body);
    code.label(next);
    code.loadLocal(value);
    emitStep(code, "hasNext", "(JJLbufferstop/model/Type;)Z");
    code.jump(Opcodes.IFEQ, out);
    code.loadLocal(value);
    code.push(step);
    code.op(Opcodes.LADD);
    code.storeLocal(value);
    emitControl(code, value);
    code.jump(Opcodes.GOTO, again);
    code.label(out);
  }

  private void emitControl(Code code, int value) {
    code.address(control);
    code.loadLocal(value);
    code.store();
  }

  private void emitStep(Code code, String method, String descriptor) {
    code.push(step);
    code.push(type);
    code.call(For.class, method, descriptor);
  }
}
