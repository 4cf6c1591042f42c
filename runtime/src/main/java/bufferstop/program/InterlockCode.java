package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/**
 * What one permissive, interlock or trip does in a scan. A cause acts when a trip's condition
 * holds, or when a condition that must hold does not. The causes first seen acting are kept, all of
 * one scan alike, until none acts (permissive, interlock) or until the reset (trip).
 */
final class InterlockCode {
  private final Interlock interlock;
  private final boolean trip;
  private final Symbol state; // .ok or .tripped
  private final List<Symbol> first = new ArrayList<>(); // .first.CAUSE, or empty
  private final List<Symbol> acts = new ArrayList<>(); // the causes that act in this scan
  private final Symbol acting;
  private final Symbol reset;
  private final Symbol lastReset;

  InterlockCode(Interlock interlock, Layout layout) {
    this.interlock = interlock;
    trip = interlock.kind() == InterlockKind.TRIP;
    String name = interlock.name();
    state = layout.controller().find(name + (trip ? ".tripped" : ".ok"));
    acting = layout.remember(name + "#acting", Type.BOOL);
    for (Cause cause : interlock.causes()) {
      acts.add(layout.remember(name + "#" + cause.name(), Type.BOOL));
      if (Declarations.hasNamedCauses(interlock)) {
        first.add(layout.controller().find(name + ".first." + cause.name()));
      }
    }
    reset = trip ? layout.remember(name + "#reset", Type.BOOL) : null;
    lastReset = trip ? layout.remember(name + "#last_reset", Type.BOOL) : null;
  }

  /** Its state before the first scan: nothing acts. */
  Symbol state() {
    return state;
  }

  boolean isTrip() {
    return trip;
  }

  /**
   * One evaluation.
   *
   * @param conditions of the causes, in their order
   * @param freshReset condition whose rising edge resets a trip; null otherwise
   * @param safe numbers of the outputs it holds while it acts
   */
  Statement statement(
      List<Expression> conditions, Expression freshReset, Outputs outputs, int[] safe) {
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < acts.size(); i++) {
      Expression condition = conditions.get(i);
      all.add(Terms.set(acts.get(i), trip ? condition : Terms.not(condition)));
    }
    if (!first.isEmpty()) {
      all.add(Terms.when(Terms.not(Terms.read(acting)), copied()));
    }
    Expression present = Terms.any(acts.stream().map(Terms::read).toList());
    if (trip) {
      all.add(Terms.set(reset, freshReset));
      Expression fresh = Terms.all(List.of(Terms.read(reset), Terms.not(Terms.read(lastReset))));
      Expression stays = Terms.all(List.of(Terms.read(acting), Terms.not(fresh)));
      all.add(Terms.set(acting, Terms.any(List.of(present, stays))));
      all.add(Terms.set(lastReset, Terms.read(reset)));
    } else {
      all.add(Terms.set(acting, present));
    }
    all.add(Terms.set(state, trip ? Terms.read(acting) : Terms.not(Terms.read(acting))));
    all.add(Terms.choose(Terms.read(acting), held(outputs, safe), forgotten()));
    return Statement.sequence(all);
  }

  private List<Statement> copied() {
    List<Statement> copied = new ArrayList<>();
    for (int i = 0; i < first.size(); i++) {
      copied.add(Terms.set(first.get(i), Terms.read(acts.get(i))));
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
    return first.stream().map(symbol -> Terms.set(symbol, false)).toList();
  }
}
