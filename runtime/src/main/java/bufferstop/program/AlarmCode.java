package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Alarm;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/**
 * What the alarms do in a scan: normal, unacknowledged, acknowledged, returned to normal
 * unacknowledged. Source: ISA-18.2 alarm state-transition diagram, states A to D [from memory, not
 * re-read].
 */
final class AlarmCode {
  private final Controller controller;
  private final Layout layout;

  AlarmCode(Controller controller, Layout layout) {
    this.controller = controller;
    this.layout = layout;
  }

  /**
   * All alarms and what they come to.
   *
   * @param conditions in the order of the alarms
   * @param acknowledge its rising edge acknowledges all; null when alarms need none
   */
  Statement statement(List<Expression> conditions, Expression acknowledge) {
    List<Statement> all = new ArrayList<>();
    Symbol fresh = acknowledge == null ? null : freshAcknowledge(acknowledge, all);
    List<Expression> active = new ArrayList<>();
    List<Expression> waiting = new ArrayList<>();
    for (int i = 0; i < conditions.size(); i++) {
      String name = "alarms." + controller.alarms().get(i).name();
      all.addAll(alarm(controller.alarms().get(i), conditions.get(i), fresh));
      active.add(Terms.read(symbol(name + ".active")));
      waiting.add(Terms.read(symbol(name + ".unacknowledged")));
    }
    all.add(Terms.set(symbol("alarms.active"), Terms.any(active)));
    all.add(Terms.set(symbol("alarms.unacknowledged"), Terms.any(waiting)));
    return Statement.sequence(all);
  }

  private Symbol symbol(String name) {
    return layout.controller().find(name);
  }

  private Symbol freshAcknowledge(Expression acknowledge, List<Statement> all) {
    Symbol level = layout.remember("alarms#acknowledge", Type.BOOL);
    Symbol last = layout.remember("alarms#last_acknowledge", Type.BOOL);
    Symbol fresh = layout.remember("alarms#fresh_acknowledge", Type.BOOL);
    all.add(Terms.set(level, acknowledge));
    all.add(Terms.set(fresh, Terms.all(List.of(Terms.read(level), Terms.not(Terms.read(last))))));
    all.add(Terms.set(last, Terms.read(level)));
    return fresh;
  }

  private List<Statement> alarm(Alarm alarm, Expression when, Symbol fresh) {
    String name = "alarms." + alarm.name();
    Symbol active = symbol(name + ".active");
    Symbol waiting = symbol(name + ".unacknowledged");
    Symbol acts = layout.remember("alarms#" + alarm.name() + ".acts", Type.BOOL);
    List<Statement> all = new ArrayList<>(acting(alarm, when, acts));
    Expression raised = Terms.all(List.of(Terms.read(acts), Terms.not(Terms.read(active))));
    Expression stays = fresh == null ? Terms.read(acts) : Terms.not(Terms.read(fresh));
    Expression keeps = Terms.all(List.of(Terms.read(waiting), stays));
    all.add(Terms.set(waiting, Terms.any(List.of(raised, keeps))));
    all.add(Terms.set(active, Terms.read(acts)));
    return all;
  }

  /** Whether the condition has lasted for the alarm's delay. */
  private List<Statement> acting(Alarm alarm, Expression when, Symbol acts) {
    if (alarm.delayMicros() == 0) {
      return List.of(Terms.set(acts, when));
    }
    Symbol timing = layout.remember("alarms#" + alarm.name() + ".timing", Type.BOOL);
    Symbol since = layout.remember("alarms#" + alarm.name() + ".since", Type.TIME);
    Expression passed = Terms.atLeast(Terms.elapsed(since), Terms.micros(alarm.delayMicros()));
    Statement begins =
        Terms.when(
            Terms.not(Terms.read(timing)),
            List.of(Terms.set(timing, true), Terms.set(since, Terms.now())));
    return List.of(
        Terms.choose(
            when,
            List.of(begins, Terms.set(acts, passed)),
            List.of(Terms.set(timing, false), Terms.set(acts, false))));
  }
}
