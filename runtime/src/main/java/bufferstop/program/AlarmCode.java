package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Alarm;
import bufferstop.model.Controller.Alarm.Command;
import bufferstop.model.Retained;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/**
 * What one alarm does in a scan. Its states are those of the ISA-18.2 alarm state-transition
 * diagram [from memory, not re-read]: A normal, B unacknowledged, C acknowledged, D returned to
 * normal unacknowledged, E and F latched unacknowledged and acknowledged, G shelved, H suppressed
 * by design, I out of service. An acknowledgement reaches what was there before this scan.
 */
final class AlarmCode {

  /**
   * Its expressions.
   *
   * @param on whether its condition comes: a limit is reached, or the condition holds
   * @param off whether its condition goes: the quantity is back past the deadband, or NOT on
   * @param suppressed null when it never is
   */
  record Conditions(Expression on, Expression off, Expression suppressed) {}

  private final Alarm alarm;
  private final Layout layout;
  private final String name;
  private final Symbol active;
  private final Symbol unacknowledged;
  private final Symbol latched;
  private final Symbol shelved;
  private final Symbol suppressed;
  private final Symbol silent; // set aside in this scan, in whatever way
  private final Symbol wasSilent;
  private final Symbol condition; // with its deadband, before delays
  private final Symbol acts; // after delays
  private final List<Symbol> memory = new ArrayList<>(); // whatever its states consist of
  private final List<Symbol> moments = new ArrayList<>(); // those that are times

  AlarmCode(Alarm alarm, Layout layout) {
    this.alarm = alarm;
    this.layout = layout;
    name = "alarms." + alarm.name();
    active = symbol(".active");
    unacknowledged = symbol(".unacknowledged");
    latched = symbol(".latched");
    shelved = symbol(".shelved");
    suppressed = symbol(".suppressed");
    silent = hidden("silent", Type.BOOL);
    wasSilent = hidden("was_silent", Type.BOOL);
    condition = hidden("condition", Type.BOOL);
    acts = hidden("acts", Type.BOOL);
  }

  private Symbol symbol(String suffix) {
    return remembered(layout.controller().find(name + suffix));
  }

  private Symbol hidden(String what, Type type) {
    return remembered(layout.remember("alarms#" + alarm.name() + "." + what, type));
  }

  private Symbol remembered(Symbol symbol) {
    memory.add(symbol);
    if (symbol.type() == Type.TIME) {
      moments.add(symbol);
    }
    return symbol;
  }

  /** All its state, with what takes it out of service; to be asked after {@link #statement}. */
  Retained retained() {
    List<Symbol> cells = new ArrayList<>(memory);
    cells.add(layout.controller().find(Command.OUT_OF_SERVICE.point(alarm.name())));
    return RetainedCode.of(name, "alarm", cells, moments);
  }

  private Expression command(Command command) {
    return Terms.read(layout.controller().find(command.point(alarm.name())));
  }

  /** Active and not set aside. */
  Expression isShown() {
    return both(Terms.read(active), Terms.not(Terms.read(silent)));
  }

  Expression isUnacknowledged() {
    return Terms.read(unacknowledged);
  }

  Expression isSilent() {
    return Terms.read(silent);
  }

  private static Expression both(Expression one, Expression other) {
    return Terms.all(List.of(one, other));
  }

  /**
   * One evaluation.
   *
   * @param acknowledgeAll TRUE in the scan of a fresh acknowledgement of all; null without one
   */
  Statement statement(Conditions of, Expression acknowledgeAll) {
    List<Statement> all = new ArrayList<>();
    all.add(
        Terms.choose(
            Terms.read(condition),
            List.of(Terms.when(of.off, List.of(Terms.set(condition, false)))),
            List.of(Terms.when(of.on, List.of(Terms.set(condition, true))))));
    all.addAll(delays());
    all.addAll(shelf());
    if (of.suppressed != null) {
      all.add(Terms.set(suppressed, of.suppressed));
    }
    all.add(Terms.set(wasSilent, Terms.read(silent)));
    all.add(
        Terms.set(
            silent,
            Terms.any(
                List.of(
                    Terms.read(shelved),
                    Terms.read(suppressed),
                    command(Command.OUT_OF_SERVICE)))));
    all.add(
        Terms.choose(
            Terms.read(silent),
            List.of(Terms.set(unacknowledged, false), Terms.set(latched, false)),
            states(acknowledgeAll)));
    all.add(Terms.set(active, Terms.read(acts)));
    return Statement.sequence(all);
  }

  /** The condition after both delays: it acts once it has lasted, and until it has been gone. */
  private List<Statement> delays() {
    if (alarm.onDelayMicros() == 0 && alarm.offDelayMicros() == 0) {
      return List.of(Terms.set(acts, Terms.read(condition)));
    }
    Symbol timing = hidden("timing", Type.BOOL);
    Symbol since = hidden("since", Type.TIME);
    Statement begins =
        Terms.when(
            Terms.not(Terms.read(timing)),
            List.of(Terms.set(timing, true), Terms.set(since, Terms.now())));
    return List.of(
        Terms.choose(
            Terms.read(condition),
            lasting(
                Terms.not(Terms.read(acts)), begins, timing, since, alarm.onDelayMicros(), true),
            lasting(Terms.read(acts), begins, timing, since, alarm.offDelayMicros(), false)));
  }

  private List<Statement> lasting(
      Expression pending,
      Statement begins,
      Symbol timing,
      Symbol since,
      long micros,
      boolean result) {
    Statement ends =
        Terms.when(
            Terms.atLeast(Terms.elapsed(since), Terms.micros(micros)),
            List.of(Terms.set(acts, result), Terms.set(timing, false)));
    return List.of(Terms.choose(pending, List.of(begins, ends), List.of(Terms.set(timing, false))));
  }

  /** G: for a time, or until the alarm has come and gone once; the time ends that too. */
  private List<Statement> shelf() {
    Symbol once = hidden("once", Type.BOOL);
    Symbol since = hidden("shelved_since", Type.TIME);
    Expression gone = both(Terms.read(active), Terms.not(Terms.read(acts)));
    return List.of(
        Terms.when(
            Terms.any(List.of(command(Command.SHELVE), command(Command.SHELVE_ONCE))),
            List.of(
                Terms.set(shelved, true),
                Terms.set(once, command(Command.SHELVE_ONCE)),
                Terms.set(since, Terms.now()))),
        Terms.when(
            Terms.any(
                List.of(
                    command(Command.UNSHELVE),
                    Terms.atLeast(Terms.elapsed(since), Terms.micros(alarm.shelfMicros())),
                    both(Terms.read(once), gone))),
            List.of(Terms.set(shelved, false), Terms.set(once, false))));
  }

  /** A to F. */
  private List<Statement> states(Expression acknowledgeAll) {
    List<Statement> all = new ArrayList<>();
    if (alarm.latching()) { // E is to be acknowledged first
      all.add(
          Terms.when(
              both(command(Command.RESET), Terms.not(Terms.read(unacknowledged))),
              List.of(Terms.set(latched, false))));
    }
    List<Expression> acknowledged = new ArrayList<>(List.of(command(Command.ACKNOWLEDGE)));
    if (alarm.group() != null) {
      String point = Controller.groupPoint(alarm.group().text());
      acknowledged.add(Terms.read(layout.controller().find(point)));
    }
    if (acknowledgeAll != null) {
      acknowledged.add(acknowledgeAll);
    }
    all.addAll(acknowledgement(Terms.any(acknowledged)));
    Expression raised =
        both(
            Terms.read(acts),
            Terms.any(List.of(Terms.not(Terms.read(active)), Terms.read(wasSilent))));
    Expression returned = both(Terms.read(active), Terms.not(Terms.read(acts)));
    all.add(
        Terms.choose(
            raised,
            List.of(Terms.set(unacknowledged, true), Terms.set(latched, false)),
            List.of(Terms.when(both(returned, Terms.not(Terms.read(wasSilent))), returning()))));
    return all;
  }

  private List<Statement> returning() {
    List<Statement> all = new ArrayList<>();
    if (alarm.latching()) {
      all.add(Terms.set(latched, true));
    }
    if (!alarm.needsAcknowledge()) {
      all.add(Terms.set(unacknowledged, false));
    }
    return all;
  }

  /** B to C, D to A, E to F; and C back to B when it has stood for too long. */
  private List<Statement> acknowledgement(Expression acknowledged) {
    Statement accepted = Terms.set(unacknowledged, false);
    if (alarm.reAlarmMicros() == 0) {
      return List.of(Terms.when(acknowledged, List.of(accepted)));
    }
    Symbol since = hidden("acknowledged_since", Type.TIME);
    Expression stood =
        Terms.all(
            List.of(
                Terms.read(active),
                Terms.not(Terms.read(unacknowledged)),
                Terms.atLeast(Terms.elapsed(since), Terms.micros(alarm.reAlarmMicros()))));
    return List.of(
        Terms.when(stood, List.of(Terms.set(unacknowledged, true))),
        Terms.when(
            both(acknowledged, Terms.read(unacknowledged)),
            List.of(accepted, Terms.set(since, Terms.now()))));
  }
}
