package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Sequence;
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
 * step the first written wins. A condition is evaluated only while its transition is enabled. An
 * abort goes before a hold, a hold before all transitions. Source: IEC 61131-3:2003, 2.6.5
 * [re-read]; IEC 60848 rules 2 to 5 [second-hand]; restart of a step both left and entered, abort,
 * hold and manual stepping [project choice].
 */
final class SequenceCode {

  /** A transition with its steps by number. */
  record Gate(int[] from, int[] to, Expression when) {}

  /**
   * Conditions around the transitions.
   *
   * @param abort null when there is none
   * @param abortTo the step that an abort leads to
   * @param hold null when it has none of its own
   * @param restart null when a hold ends by itself
   * @param manual null when it cannot be stepped by hand
   * @param next null likewise
   */
  record Around(
      Expression abort,
      int abortTo,
      Expression hold,
      Expression restart,
      Expression manual,
      Expression next) {}

  private final Sequence sequence;
  private final Layout layout;
  private final Situation situation;
  private final SequenceCode outer; // what runs it; null when it begins by itself
  private final int outerStep;
  private final List<Symbol> taken = new ArrayList<>(); // left by a transition of this scan
  private final Symbol moves; // a transition clears in this scan
  private final Symbol aborted;
  private final Symbol wasAborted;
  private final Symbol held; // null when it cannot be

  /**
   * Adds the memory of a sequence.
   *
   * @param outer what runs it; null when it begins by itself
   * @param outerStep the step of it that does
   */
  SequenceCode(Sequence sequence, SequenceCode outer, int outerStep, Layout layout) {
    this.sequence = sequence;
    this.layout = layout;
    this.outer = outer;
    this.outerStep = outerStep;
    held = layout.controller().find(sequence.name() + ".held");
    situation = new Situation(sequence, layout, held != null);
    sequence.steps().forEach(step -> taken.add(remember(step.name() + ".taken")));
    moves = remember("moves");
    aborted = remember("aborted");
    wasAborted = remember("was_aborted");
  }

  private Symbol remember(String what) {
    return layout.remember(hidden(what), Type.BOOL);
  }

  private String hidden(String what) {
    return sequence.name() + "#" + what;
  }

  /** Steps active before the first scan. */
  List<Symbol> initial() {
    boolean begins = outer == null || outer.beginsWith(outerStep);
    return begins ? situation.initial() : List.of();
  }

  private boolean beginsWith(int step) {
    boolean begins = outer == null || outer.beginsWith(outerStep);
    return begins && sequence.steps().get(step).initial();
  }

  Situation situation() {
    return situation;
  }

  /** Whether an abort begins in this scan, here or further out; stored actions are then cleared. */
  Expression isAbortBeginning() {
    Expression own = Terms.all(List.of(Terms.read(aborted), Terms.not(Terms.read(wasAborted))));
    return outer == null ? own : Terms.any(List.of(own, outer.isAbortBeginning()));
  }

  /** Whether it is held in this scan; null when it never is. */
  Expression isHeld() {
    return held == null ? null : Terms.read(held);
  }

  /**
   * Its part of step 4 of the scan, after that of what runs it.
   *
   * @param fired for each gate a cell of its own
   */
  Statement statement(List<Gate> gates, List<Symbol> fired, Around around) {
    List<Statement> all = new ArrayList<>(situation.beginScan());
    if (around.abort != null) {
      all.add(Terms.set(wasAborted, Terms.read(aborted)));
      all.add(Terms.set(aborted, allowed(around.abort)));
    }
    hold(around, all);
    Symbol fresh = manual(around, all);
    List<Statement> free = evolution(gates, fired, fresh);
    List<Statement> unaborted =
        held == null ? free : List.of(Terms.choose(Terms.read(held), situation.standStill(), free));
    List<Statement> running =
        around.abort == null
            ? unaborted
            : List.of(Terms.choose(Terms.read(aborted), abortion(around.abortTo), unaborted));
    all.addAll(outer == null ? running : List.of(enclosed(running)));
    all.addAll(situation.lateness());
    if (sequence.steps().stream().anyMatch(s -> s.isFinal())) {
      all.add(Terms.set(visible("done"), situation.isDone()));
    }
    return Statement.sequence(all);
  }

  private Symbol visible(String what) {
    return layout.controller().find(sequence.name() + "." + what);
  }

  /** A condition that counts only while the sequence runs. */
  private Expression allowed(Expression condition) {
    return outer == null ? condition : Terms.all(List.of(condition, isRunning()));
  }

  /** Whether the step that runs it is active, and was so before this scan. */
  private Expression isRunning() {
    Situation around = outer.situation;
    return Terms.all(List.of(around.isActive(outerStep), Terms.not(around.isEntered(outerStep))));
  }

  /** Begins when the step that runs it does, is empty while that is not active. */
  private Statement enclosed(List<Statement> running) {
    Situation around = outer.situation;
    return Terms.choose(
        around.isEntered(outerStep),
        situation.begin(),
        List.of(Terms.choose(around.isActive(outerStep), running, situation.leaveAll())));
  }

  private void hold(Around around, List<Statement> all) {
    if (held == null) {
      return;
    }
    List<Expression> holds = new ArrayList<>();
    if (around.hold != null) {
      Symbol own = remember("held");
      Expression wants = around.hold;
      if (around.restart != null) {
        Symbol fresh = RisingEdge.of(around.restart, hidden("restart"), layout, all).fresh();
        Expression stays = Terms.all(List.of(Terms.read(own), Terms.not(Terms.read(fresh))));
        wants = Terms.any(List.of(wants, stays));
      }
      Expression unaborted = Terms.not(Terms.read(aborted));
      all.add(Terms.set(own, Terms.all(List.of(allowed(wants), unaborted))));
      holds.add(Terms.read(own));
    }
    if (outer != null && outer.held != null) {
      holds.add(Terms.all(List.of(Terms.read(outer.held), isRunning())));
    }
    Expression either = Terms.any(holds);
    all.add(Terms.set(held, Terms.all(List.of(either, Terms.not(Terms.read(aborted))))));
  }

  /** The edge that moves it by hand; null when it cannot be moved so. */
  private Symbol manual(Around around, List<Statement> all) {
    if (around.manual == null) {
      return null;
    }
    all.add(Terms.set(visible("manual"), allowed(around.manual)));
    return RisingEdge.of(around.next, hidden("next"), layout, all).fresh();
  }

  private List<Statement> abortion(int to) {
    List<Statement> all = new ArrayList<>(situation.leaveAllBut(to));
    all.add(Terms.when(Terms.not(situation.isActive(to)), situation.enter(to)));
    return all;
  }

  private List<Statement> evolution(List<Gate> gates, List<Symbol> fired, Symbol next) {
    List<Statement> judged = new ArrayList<>();
    for (int g = 0; g < gates.size(); g++) {
      Statement clears = Terms.when(gates.get(g).when, cleared(gates.get(g), fired.get(g)));
      judged.add(Terms.when(isEnabled(gates.get(g)), List.of(clears)));
    }
    List<Statement> all = new ArrayList<>();
    if (next == null) {
      all.addAll(judged);
    } else {
      all.addAll(byHand(gates, fired, judged, next));
    }
    all.add(Terms.when(Terms.read(moves), moved(gates, fired)));
    return all;
  }

  /**
   * While it is stepped by hand nothing moves without the edge; with it the ordinary rules count,
   * and when no condition holds the first written transition of each step goes without one.
   */
  private List<Statement> byHand(
      List<Gate> gates, List<Symbol> fired, List<Statement> judged, Symbol next) {
    Expression manual = Terms.read(visible("manual"));
    Expression edge = Terms.read(next);
    List<Statement> regardless = new ArrayList<>();
    for (int g = 0; g < gates.size(); g++) {
      regardless.add(Terms.when(isEnabled(gates.get(g)), cleared(gates.get(g), fired.get(g))));
    }
    Expression none = Terms.not(Terms.read(moves));
    return List.of(
        Terms.when(Terms.any(List.of(Terms.not(manual), edge)), judged),
        Terms.when(Terms.all(List.of(manual, edge, none)), regardless));
  }

  private List<Statement> cleared(Gate gate, Symbol fired) {
    List<Statement> cleared = new ArrayList<>();
    cleared.add(Terms.set(fired, true));
    cleared.add(Terms.set(moves, true));
    for (int step : gate.from) {
      cleared.add(Terms.set(taken.get(step), true));
    }
    return cleared;
  }

  /** All steps before it active for long enough, and none taken by an earlier transition. */
  private Expression isEnabled(Gate gate) {
    List<Expression> all = new ArrayList<>();
    for (int step : gate.from) {
      all.add(situation.isActive(step));
      all.add(Terms.not(Terms.read(taken.get(step))));
      long atLeast = sequence.steps().get(step).atLeastMicros();
      if (atLeast > 0) {
        all.add(situation.hasLasted(step, atLeast));
      }
    }
    return Terms.all(all);
  }

  private List<Statement> moved(List<Gate> gates, List<Symbol> fired) {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < situation.size(); i++) {
      List<Statement> leaves = new ArrayList<>(situation.leave(i));
      leaves.add(Terms.set(taken.get(i), false));
      all.add(Terms.when(Terms.read(taken.get(i)), leaves));
    }
    for (int g = 0; g < gates.size(); g++) {
      List<Statement> entries = new ArrayList<>();
      for (int step : gates.get(g).to) {
        entries.addAll(situation.enter(step));
      }
      entries.add(Terms.set(fired.get(g), false));
      all.add(Terms.when(Terms.read(fired.get(g)), entries));
    }
    all.add(Terms.set(moves, false));
    return all;
  }
}
