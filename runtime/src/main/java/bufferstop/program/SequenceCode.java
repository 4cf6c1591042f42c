package bufferstop.program;

import bufferstop.image.Layout;
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
 * What one sequence does in a scan. One evolution: every transition is judged on the situation at
 * the start, those that clear do so together, first all deactivations, then all activations, so
 * that a step both left and entered stays active and begins anew. Of transitions that compete for a
 * step the first written wins. A condition is evaluated only while its transition is enabled.
 * Source: IEC 61131-3:2003, 2.6.5 [re-read]; IEC 60848 rules 2 to 5 [second-hand]; restart of a
 * step both left and entered [project choice].
 */
final class SequenceCode {

  /** A transition with its steps by number. */
  record Gate(int[] from, int[] to, Expression when) {}

  private final Sequence sequence;
  private final List<Symbol> active = new ArrayList<>(); // .X
  private final List<Symbol> time = new ArrayList<>(); // .T
  private final List<Symbol> late = new ArrayList<>(); // .late
  private final List<Symbol> since = new ArrayList<>();
  private final List<Symbol> entered = new ArrayList<>(); // TRUE in the scan of entry
  private final List<Symbol> taken = new ArrayList<>(); // left by a transition of this scan
  private final Symbol moves; // a transition clears in this scan
  private final Symbol aborted;
  private final Symbol wasAborted;

  SequenceCode(Sequence sequence, Layout layout) {
    this.sequence = sequence;
    String head = sequence.name();
    for (Step step : sequence.steps()) {
      String name = head + "." + step.name();
      String hidden = head + "#" + step.name();
      active.add(layout.controller().find(name + ".X"));
      time.add(layout.controller().find(name + ".T"));
      late.add(layout.controller().find(name + ".late"));
      since.add(layout.remember(hidden + ".since", Type.TIME));
      entered.add(layout.remember(hidden + ".entered", Type.BOOL));
      taken.add(layout.remember(hidden + ".taken", Type.BOOL));
    }
    moves = layout.remember(head + "#moves", Type.BOOL);
    aborted = layout.remember(head + "#aborted", Type.BOOL);
    wasAborted = layout.remember(head + "#was_aborted", Type.BOOL);
  }

  /** Steps active before the first scan. */
  List<Symbol> initial() {
    List<Symbol> initial = new ArrayList<>();
    for (int i = 0; i < active.size(); i++) {
      if (sequence.steps().get(i).initial()) {
        initial.add(active.get(i));
      }
    }
    return initial;
  }

  Expression isActive(int step) {
    return Terms.read(active.get(step));
  }

  /** Whether a step has been active for at least that long; meaningful while it is active. */
  Expression hasLasted(int step, long micros) {
    return Terms.atLeast(Terms.read(time.get(step)), Terms.micros(micros));
  }

  /** Whether a step became active in this scan; those of the start did not, they were so before. */
  Expression isEntered(int step) {
    return Terms.read(entered.get(step));
  }

  /** Whether an abort begins in this scan; stored actions are then cleared. */
  Expression isAbortBeginning() {
    return Terms.all(List.of(Terms.read(aborted), Terms.not(Terms.read(wasAborted))));
  }

  /**
   * One evolution.
   *
   * @param fired for each gate a cell of its own
   * @param abortWhen null when there is none
   * @param abortTo the step that an abort leads to
   */
  Statement statement(List<Gate> gates, List<Symbol> fired, Expression abortWhen, int abortTo) {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < active.size(); i++) {
      all.add(Terms.set(entered.get(i), false));
      all.add(
          Terms.when(isActive(i), List.of(Terms.set(time.get(i), Terms.elapsed(since.get(i))))));
    }
    List<Statement> evolution = evolution(gates, fired);
    if (abortWhen == null) {
      all.addAll(evolution);
    } else {
      all.add(Terms.set(wasAborted, Terms.read(aborted)));
      all.add(Terms.set(aborted, abortWhen));
      all.add(Terms.choose(Terms.read(aborted), abortion(abortTo), evolution));
    }
    all.addAll(lateness());
    return Statement.sequence(all);
  }

  private List<Statement> abortion(int to) {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < active.size(); i++) {
      if (i != to) {
        all.add(Terms.set(active.get(i), false));
      }
    }
    all.add(Terms.when(Terms.not(isActive(to)), enter(to)));
    return all;
  }

  private List<Statement> evolution(List<Gate> gates, List<Symbol> fired) {
    List<Statement> all = new ArrayList<>();
    for (int g = 0; g < gates.size(); g++) {
      List<Statement> cleared = new ArrayList<>();
      cleared.add(Terms.set(fired.get(g), true));
      cleared.add(Terms.set(moves, true));
      for (int step : gates.get(g).from) {
        cleared.add(Terms.set(taken.get(step), true));
      }
      Statement judged = Terms.when(gates.get(g).when, cleared);
      all.add(Terms.when(isEnabled(gates.get(g)), List.of(judged)));
    }
    all.add(Terms.when(Terms.read(moves), moved(gates, fired)));
    return all;
  }

  /** All steps before it active for long enough, and none taken by an earlier transition. */
  private Expression isEnabled(Gate gate) {
    List<Expression> all = new ArrayList<>();
    for (int step : gate.from) {
      all.add(isActive(step));
      all.add(Terms.not(Terms.read(taken.get(step))));
      long atLeast = sequence.steps().get(step).atLeastMicros();
      if (atLeast > 0) {
        all.add(hasLasted(step, atLeast));
      }
    }
    return Terms.all(all);
  }

  private List<Statement> moved(List<Gate> gates, List<Symbol> fired) {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < active.size(); i++) {
      all.add(
          Terms.when(
              Terms.read(taken.get(i)),
              List.of(Terms.set(active.get(i), false), Terms.set(taken.get(i), false))));
    }
    for (int g = 0; g < gates.size(); g++) {
      List<Statement> entries = new ArrayList<>();
      for (int step : gates.get(g).to) {
        entries.addAll(enter(step));
      }
      entries.add(Terms.set(fired.get(g), false));
      all.add(Terms.when(Terms.read(fired.get(g)), entries));
    }
    all.add(Terms.set(moves, false));
    return all;
  }

  private List<Statement> enter(int step) {
    return List.of(
        Terms.set(entered.get(step), true),
        Terms.set(active.get(step), true),
        Terms.set(time.get(step), Terms.micros(0)),
        Terms.set(since.get(step), Terms.now()));
  }

  private List<Statement> lateness() {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < late.size(); i++) {
      long within = sequence.steps().get(i).withinMicros();
      if (within > 0) {
        Expression longer = Terms.above(Terms.read(time.get(i)), Terms.micros(within));
        all.add(Terms.set(late.get(i), Terms.all(List.of(isActive(i), longer))));
      }
    }
    return all;
  }
}
