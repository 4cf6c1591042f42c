package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Retained;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * What one permissive, interlock or trip does in a scan. A cause acts when a trip's condition
 * holds, or when a condition that must hold does not. The causes first seen acting are kept with
 * the time, all of one scan alike, until none acts (permissive, interlock) or until the reset
 * (trip).
 */
final class InterlockCode {
  private final boolean trip;
  private final Symbol state; // .ok or .tripped
  private final Symbol firstTime;
  private final List<Symbol> first = new ArrayList<>(); // .first.CAUSE, or empty
  private final List<CauseCode> causes = new ArrayList<>();
  private final Symbol acting;
  private final String name;
  private final Layout layout;
  private Symbol lastReset; // of a trip, once its statement is made

  InterlockCode(Interlock interlock, Layout layout) {
    trip = interlock.kind() == InterlockKind.TRIP;
    this.layout = layout;
    name = interlock.name();
    state = layout.controller().find(name + (trip ? ".tripped" : ".ok"));
    firstTime = layout.controller().find(name + ".first_time");
    acting = layout.remember(name + "#acting", Type.BOOL);
    for (Cause cause : interlock.causes()) {
      causes.add(new CauseCode(name, cause, trip, layout));
      if (Declarations.hasNamedCauses(interlock)) {
        first.add(layout.controller().find(name + ".first." + cause.name()));
      }
    }
  }

  /**
   * What is TRUE before the first scan: nothing acts, and a key that is turned, or a reset that is
   * held, is no edge. To be asked after {@link #statement}.
   */
  List<Symbol> initiallyTrue() {
    List<Symbol> all = new ArrayList<>(List.of(trip ? lastReset : state));
    causes.stream()
        .map(CauseCode::bypass)
        .filter(Objects::nonNull)
        .forEach(bypass -> all.add(bypass.lastKey()));
    return all;
  }

  /** What a trip keeps: that it acts, by what and since when; no bypass. */
  Retained retained() {
    List<Symbol> cells = new ArrayList<>(List.of(state, acting, firstTime));
    cells.addAll(first);
    return RetainedCode.of(name, "trip", cells, List.of(firstTime));
  }

  /** Whether it acts in this scan. */
  Symbol acting() {
    return acting;
  }

  boolean isTrip() {
    return trip;
  }

  /**
   * One evaluation.
   *
   * @param conditions of the causes, in their order
   * @param reset condition whose rising edge resets a trip; null otherwise
   * @param safe numbers of the outputs it holds while it acts
   */
  Statement statement(
      List<CauseCode.Conditions> conditions, Expression reset, Outputs outputs, int[] safe) {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < causes.size(); i++) {
      all.addAll(causes.get(i).asking(conditions.get(i)));
    }
    causes.forEach(cause -> all.addAll(cause.acting(anyBypass())));
    all.add(Terms.when(Terms.not(Terms.read(acting)), copied()));
    Expression present = Terms.any(causes.stream().map(c -> Terms.read(c.acts())).toList());
    if (trip) {
      RisingEdge edge = RisingEdge.of(reset, name + "#reset", layout, all);
      lastReset = edge.last();
      Expression stays =
          Terms.all(List.of(Terms.read(acting), Terms.not(Terms.read(edge.fresh()))));
      all.add(Terms.set(acting, Terms.any(List.of(present, stays))));
    } else {
      all.add(Terms.set(acting, present));
    }
    all.add(Terms.set(state, trip ? Terms.read(acting) : Terms.not(Terms.read(acting))));
    all.add(Terms.choose(Terms.read(acting), held(outputs, safe), forgotten()));
    return Statement.sequence(all);
  }

  private Expression anyBypass() {
    return Terms.any(
        causes.stream()
            .map(CauseCode::bypass)
            .filter(Objects::nonNull)
            .map(BypassCode::isOn)
            .toList());
  }

  private List<Statement> copied() {
    List<Statement> copied = new ArrayList<>();
    copied.add(Terms.set(firstTime, Terms.now()));
    for (int i = 0; i < first.size(); i++) {
      copied.add(Terms.set(first.get(i), Terms.read(causes.get(i).acts())));
    }
    return copied;
  }

  private List<Statement> held(Outputs outputs, int[] safe) {
    List<Statement> held = new ArrayList<>();
    for (int output : safe) {
      held.add(Terms.set(outputs.held(output), true));
      if (trip) {
        held.add(Terms.set(outputs.tripped(output), true));
      }
    }
    return held;
  }

  private List<Statement> forgotten() {
    List<Statement> forgotten = new ArrayList<>();
    forgotten.add(Terms.set(firstTime, Terms.micros(0)));
    first.forEach(symbol -> forgotten.add(Terms.set(symbol, false)));
    return forgotten;
  }
}
