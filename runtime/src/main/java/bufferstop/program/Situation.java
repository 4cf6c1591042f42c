package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Action;
import bufferstop.model.Controller.Qualifier;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.Step;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/**
 * The steps of one sequence, by number: which are active, since when, and what is said of them. A
 * sequence that can be held has a clock of its own, which stands still while it is held. Source:
 * IEC 61131-3:2003, 2.6.2 and Table 40 [re-read]; time 0 in the scan of entry [project choice].
 */
final class Situation {
  private final List<Step> steps;
  private final List<Symbol> active = new ArrayList<>(); // .X
  private final List<Symbol> time = new ArrayList<>(); // .T
  private final List<Symbol> late = new ArrayList<>(); // .late
  private final List<Symbol> since = new ArrayList<>();
  private final List<Symbol> entered = new ArrayList<>(); // TRUE in the scan of entry
  private final List<Symbol> left = new ArrayList<>(); // TRUE when left; null where nobody asks
  private final Symbol clock; // null when the clock is that of the scan
  private final Symbol lastClock;
  private final Symbol stood; // for how long the clock has stood still

  Situation(Sequence sequence, Layout layout, boolean canHold) {
    steps = sequence.steps();
    String head = sequence.name();
    for (Step step : steps) {
      String name = head + "." + step.name();
      String hidden = head + "#" + step.name();
      active.add(layout.controller().find(name + ".X"));
      time.add(layout.controller().find(name + ".T"));
      late.add(layout.controller().find(name + ".late"));
      since.add(layout.remember(hidden + ".since", Type.TIME));
      entered.add(layout.remember(hidden + ".entered", Type.BOOL));
      left.add(asksForEnd(step) ? layout.remember(hidden + ".left", Type.BOOL) : null);
    }
    clock = canHold ? layout.remember(head + "#clock", Type.TIME) : null;
    lastClock = canHold ? layout.remember(head + "#last_clock", Type.TIME) : null;
    stood = canHold ? layout.remember(head + "#stood", Type.TIME) : null;
  }

  private static boolean asksForEnd(Step step) {
    return step.actions().stream().map(Action::qualifier).anyMatch(q -> q == Qualifier.P0);
  }

  int size() {
    return steps.size();
  }

  /** Steps active before the first scan, if the sequence is. */
  List<Symbol> initial() {
    return initialSteps().stream().map(active::get).toList();
  }

  private List<Integer> initialSteps() {
    List<Integer> initial = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      if (steps.get(i).initial()) {
        initial.add(i);
      }
    }
    return initial;
  }

  Expression isActive(int step) {
    return Terms.read(active.get(step));
  }

  /** Whether a step became active in this scan; those of the start did not, they were so before. */
  Expression isEntered(int step) {
    return Terms.read(entered.get(step));
  }

  /** Whether a step that has a {@code P0} was left in this scan. */
  Expression isLeft(int step) {
    return Terms.read(left.get(step));
  }

  /** Whether a step has been active for at least that long; meaningful while it is active. */
  Expression hasLasted(int step, long micros) {
    return Terms.atLeast(Terms.read(time.get(step)), Terms.micros(micros));
  }

  /** Whether a final step is active. */
  Expression isDone() {
    List<Expression> ends = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      if (steps.get(i).isFinal()) {
        ends.add(isActive(i));
      }
    }
    return Terms.any(ends);
  }

  /** The moment of this scan by the sequence's clock. */
  Expression now() {
    return clock == null ? Terms.now() : Terms.read(clock);
  }

  /** The time since a moment by the sequence's clock. */
  Expression elapsed(Symbol moment) {
    return clock == null ? Terms.elapsed(moment) : Terms.between(moment, clock);
  }

  /** What comes first in a scan: nothing is entered or left yet, and time has gone on. */
  List<Statement> beginScan() {
    List<Statement> all = new ArrayList<>();
    if (clock != null) {
      all.add(Terms.set(lastClock, Terms.read(clock)));
      all.add(Terms.set(clock, Terms.elapsed(stood)));
    }
    for (int i = 0; i < steps.size(); i++) {
      all.add(Terms.set(entered.get(i), false));
      if (left.get(i) != null) {
        all.add(Terms.set(left.get(i), false));
      }
      all.add(Terms.when(isActive(i), List.of(Terms.set(time.get(i), elapsed(since.get(i))))));
    }
    return all;
  }

  /** Takes back that time has gone on. */
  List<Statement> standStill() {
    List<Statement> all = new ArrayList<>();
    all.add(Terms.set(clock, Terms.read(lastClock)));
    all.add(Terms.set(stood, Terms.elapsed(clock)));
    for (int i = 0; i < steps.size(); i++) {
      all.add(Terms.when(isActive(i), List.of(Terms.set(time.get(i), elapsed(since.get(i))))));
    }
    return all;
  }

  List<Statement> enter(int step) {
    return List.of(
        Terms.set(entered.get(step), true),
        Terms.set(active.get(step), true),
        Terms.set(time.get(step), Terms.micros(0)),
        Terms.set(since.get(step), now()));
  }

  List<Statement> leave(int step) {
    List<Statement> all = new ArrayList<>();
    all.add(Terms.set(active.get(step), false));
    if (left.get(step) != null) {
      all.add(Terms.set(left.get(step), true));
    }
    return all;
  }

  /** Leaves every step but one. */
  List<Statement> leaveAllBut(int kept) {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      if (i != kept) {
        all.add(Terms.when(isActive(i), leave(i)));
      }
    }
    return all;
  }

  /** Leaves every step. */
  List<Statement> leaveAll() {
    return leaveAllBut(-1);
  }

  /** Begins anew, whatever was active. */
  List<Statement> begin() {
    List<Statement> all = new ArrayList<>(leaveAll());
    initialSteps().forEach(step -> all.addAll(enter(step)));
    return all;
  }

  /** What comes last in a scan. */
  List<Statement> lateness() {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      long within = steps.get(i).withinMicros();
      if (within > 0) {
        Expression longer = Terms.above(Terms.read(time.get(i)), Terms.micros(within));
        all.add(Terms.set(late.get(i), Terms.all(List.of(isActive(i), longer))));
      }
    }
    return all;
  }
}
