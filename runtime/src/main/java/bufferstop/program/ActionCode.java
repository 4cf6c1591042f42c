package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Qualifier;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/**
 * What all actions of a sequence on one BOOL come to in a scan: Q is TRUE while a step asks with N,
 * after one asked with S, in the scan of entry with P, and as the one request with a time says; R
 * wins over all. Times count from the scan in which the step became active; after a reset while it
 * is still active, those of SD and SL from the scan after it. While the sequence is held, Q is
 * FALSE and what is stored is kept. Statements have a Q as well; they run while it is TRUE, once
 * more in the scan in which it falls (final scan), and by P1 and P0. Source: IEC 61131-3:2003,
 * 2.6.4.5 and Table 45 [re-read], Figure 15 a [from memory, not re-read]; hold [project choice].
 */
final class ActionCode {

  /** A step by number that asks for the target. */
  record Request(Qualifier qualifier, int step, long micros) {}

  private final Symbol target;
  private final List<Request> requests;
  private final SequenceCode sequence;
  private final Situation steps;
  private final String hidden;
  private final Layout layout;
  private final List<Statement> before = new ArrayList<>();
  private final List<Expression> asked = new ArrayList<>();
  private final List<Symbol> stored = new ArrayList<>();
  private Expression reset;

  ActionCode(Symbol target, List<Request> requests, SequenceCode sequence, Layout layout) {
    this.target = target;
    this.requests = requests;
    this.sequence = sequence;
    this.steps = sequence.situation();
    this.layout = layout;
    this.hidden = target.name() + "#";
  }

  /** Writes the target, after the evolution of this scan; once. */
  Statement statement() {
    List<Expression> resets = active(Qualifier.R);
    if (!resets.isEmpty()) {
      Symbol flag = layout.remember(hidden + "reset", Type.BOOL);
      before.add(Terms.set(flag, Terms.any(resets)));
      reset = Terms.read(flag);
    }
    asked.addAll(active(Qualifier.N));
    with(Qualifier.P).forEach(request -> asked.add(steps.isEntered(request.step)));
    List<Expression> sets = active(Qualifier.S);
    if (!sets.isEmpty()) {
      asked.add(kept(Terms.any(sets), layout.remember(hidden + "stored", Type.BOOL)));
    }
    requests.stream().filter(r -> r.qualifier.isTimed()).forEach(this::timed);
    List<Statement> all = new ArrayList<>();
    if (!stored.isEmpty()) {
      List<Statement> cleared = stored.stream().map(s -> Terms.set(s, false)).toList();
      all.add(Terms.when(sequence.isAbortBeginning(), cleared));
    }
    List<Statement> acting = new ArrayList<>(before);
    acting.add(Terms.set(target, unlessReset(Terms.any(asked))));
    Expression held = sequence.isHeld();
    if (held == null) {
      all.addAll(acting);
    } else {
      all.add(Terms.choose(held, List.of(Terms.set(target, false)), acting));
    }
    return Statement.sequence(all);
  }

  /**
   * Says whether statements run in this scan; to come after {@link #statement}, whose target is
   * their Q.
   *
   * @param runs the cell that says so
   */
  Statement activation(Symbol runs) {
    Symbol last = layout.remember(hidden + "last", Type.BOOL);
    List<Expression> pulses = new ArrayList<>();
    with(Qualifier.P1).forEach(request -> pulses.add(steps.isEntered(request.step)));
    with(Qualifier.P0).forEach(request -> pulses.add(steps.isLeft(request.step)));
    List<Expression> reasons = new ArrayList<>(List.of(Terms.read(target), Terms.read(last)));
    if (!pulses.isEmpty()) {
      reasons.add(unlessReset(Terms.any(pulses)));
    }
    return Statement.sequence(
        List.of(Terms.set(runs, Terms.any(reasons)), Terms.set(last, Terms.read(target))));
  }

  private Expression unlessReset(Expression asked) {
    return reset == null ? asked : Terms.all(List.of(asked, Terms.not(reset)));
  }

  private List<Request> with(Qualifier qualifier) {
    return requests.stream().filter(r -> r.qualifier == qualifier).toList();
  }

  private List<Expression> active(Qualifier qualifier) {
    return with(qualifier).stream().map(r -> steps.isActive(r.step)).toList();
  }

  private void timed(Request request) {
    Expression isActive = steps.isActive(request.step);
    Expression hasLasted = steps.hasLasted(request.step, request.micros);
    Expression passed = Terms.all(List.of(isActive, hasLasted));
    switch (request.qualifier) {
      case L -> asked.add(Terms.all(List.of(isActive, Terms.not(hasLasted))));
      case D -> asked.add(passed);
      case DS -> asked.add(kept(passed, layout.remember(hidden + "delayed", Type.BOOL)));
      default -> timedWhileStored(request);
    }
  }

  private void timedWhileStored(Request request) {
    Symbol flag = layout.remember(hidden + "timed", Type.BOOL);
    Symbol since = layout.remember(hidden + "since", Type.TIME);
    Expression isActive = steps.isActive(request.step);
    before.add(
        Terms.when(
            Terms.all(List.of(isActive, Terms.not(Terms.read(flag)))),
            List.of(Terms.set(since, steps.now()))));
    Expression kept = kept(isActive, flag);
    Expression passed = Terms.atLeast(steps.elapsed(since), Terms.micros(request.micros));
    boolean delays = request.qualifier == Qualifier.SD;
    asked.add(Terms.all(List.of(kept, delays ? passed : Terms.not(passed))));
  }

  /** Keeps in the cell that it was asked for, until a reset. */
  private Expression kept(Expression asks, Symbol cell) {
    Expression either = Terms.any(List.of(Terms.read(cell), asks));
    before.add(Terms.set(cell, unlessReset(either)));
    stored.add(cell);
    return Terms.read(cell);
  }
}
