package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Alarm;
import bufferstop.model.Controller.Limit;
import bufferstop.model.Diagnostics;
import bufferstop.model.Retained;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/** Resolves alarms, step 7 of the scan. */
final class AlarmLinker {
  private final Controller controller;
  private final Scope scope;
  private final Layout layout;
  private final Diagnostics problems;
  private final List<Statement> all = new ArrayList<>();
  private final List<Symbol> initiallyTrue = new ArrayList<>();
  private final List<Retained> retained = new ArrayList<>();

  AlarmLinker(Controller controller, Scope scope, Layout layout, Diagnostics problems) {
    this.controller = controller;
    this.scope = scope;
    this.layout = layout;
    this.problems = problems;
  }

  Statement link() {
    Expression acknowledgeAll = acknowledgeAll();
    List<Expression> shown = new ArrayList<>();
    List<Expression> waiting = new ArrayList<>();
    List<Expression> silent = new ArrayList<>();
    for (Alarm alarm : controller.alarms()) {
      AlarmCode.Conditions conditions = conditions(alarm);
      AlarmCode code = new AlarmCode(alarm, layout);
      if (conditions != null) {
        all.add(code.statement(conditions, acknowledgeAll));
        if (alarm.retain()) {
          retained.add(code.retained());
        }
      }
      shown.add(code.isShown());
      waiting.add(code.isUnacknowledged());
      silent.add(code.isSilent());
    }
    all.add(Terms.set(symbol("alarms.active"), Terms.any(shown)));
    all.add(Terms.set(symbol("alarms.unacknowledged"), Terms.any(waiting)));
    all.add(Terms.set(symbol("alarms.silent"), Terms.any(silent)));
    return Statement.sequence(all);
  }

  /** What is TRUE before the first scan: a button that is held then is no acknowledgement. */
  List<Symbol> initiallyTrue() {
    return initiallyTrue;
  }

  /** Alarms that go on after a warm restart as they were. */
  List<Retained> retained() {
    return retained;
  }

  private Symbol symbol(String name) {
    return layout.controller().find(name);
  }

  private Expression read(SourceText text, Type type) {
    return ExpressionReader.read(text, scope, type, problems);
  }

  /** TRUE in the scan of a rising edge of the controller's acknowledgement; null without one. */
  private Expression acknowledgeAll() {
    Expression level =
        controller.acknowledge() == null ? null : read(controller.acknowledge(), Type.BOOL);
    if (level == null) {
      return null;
    }
    RisingEdge edge = RisingEdge.of(level, "alarms#acknowledge", layout, all);
    initiallyTrue.add(edge.last());
    return Terms.read(edge.fresh());
  }

  /** Null after a diagnostic. */
  private AlarmCode.Conditions conditions(Alarm alarm) {
    Expression suppressed = alarm.suppressed() == null ? null : read(alarm.suppressed(), Type.BOOL);
    boolean whole = alarm.suppressed() == null || suppressed != null;
    if (alarm.limit() == null) {
      Expression when = read(alarm.when(), Type.BOOL);
      return whole && when != null
          ? new AlarmCode.Conditions(when, Terms.not(when), suppressed)
          : null;
    }
    return limited(alarm.limit(), suppressed, whole);
  }

  /** Reached from {@code value >= limit} on, gone from {@code value < limit - deadband} on. */
  private AlarmCode.Conditions limited(Limit limit, Expression suppressed, boolean whole) {
    Expression value = read(limit.value(), Type.LREAL);
    Expression at = read(limit.at(), Type.LREAL);
    Expression deadband =
        limit.deadband() == null ? Terms.real(0) : read(limit.deadband(), Type.LREAL);
    if (!whole || value == null || at == null || deadband == null) {
      return null;
    }
    Expression on = limit.high() ? Terms.atLeast(value, at) : Terms.atLeast(at, value);
    Expression off =
        limit.high()
            ? Terms.above(Terms.minus(at, deadband), value)
            : Terms.above(value, Terms.plus(at, deadband));
    return new AlarmCode.Conditions(
        Terms.placed(on, problems), Terms.placed(off, problems), suppressed);
  }
}
