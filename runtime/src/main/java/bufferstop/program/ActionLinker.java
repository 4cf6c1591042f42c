package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Code;
import bufferstop.model.Controller.Action;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.StatementAction;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Program;
import bufferstop.st.Statement;
import bufferstop.st.StatementReader;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Collects the actions of a sequence by target, and reads those that are statements. */
final class ActionLinker {
  private record Request(int step, Action action) {}

  private final Sequence sequence;
  private final Scope scope; // of statements: functions, but no blocks to call
  private final Layout layout;
  private final Owners owners;
  private final Diagnostics problems;
  private final List<Statement> controls = new ArrayList<>();
  private final List<Statement> bodies = new ArrayList<>();

  ActionLinker(Sequence sequence, Scope scope, Layout layout, Owners owners, Diagnostics problems) {
    this.sequence = sequence;
    this.scope = scope;
    this.layout = layout;
    this.owners = owners;
    this.problems = problems;
  }

  /** What decides, one statement a target. */
  List<Statement> controls() {
    return controls;
  }

  /** The statements of the actions, in the order declared, each run where that was decided. */
  List<Statement> bodies() {
    return bodies;
  }

  void link(SequenceCode code) {
    Map<Integer, Symbol> targets = new TreeMap<>();
    Map<Integer, List<Request>> byTarget = new TreeMap<>();
    for (int step = 0; step < sequence.steps().size(); step++) {
      for (Action action : sequence.steps().get(step).actions()) {
        Symbol target = target(action.target());
        if (target != null) {
          targets.put(target.index(), target);
          byTarget
              .computeIfAbsent(target.index(), t -> new ArrayList<>())
              .add(new Request(step, action));
        }
      }
    }
    Map<Integer, ActionCode> codes = new TreeMap<>();
    byTarget.forEach(
        (index, asking) -> {
          refuseContention(asking);
          ActionCode action = new ActionCode(targets.get(index), requests(asking), code, layout);
          codes.put(index, action);
          controls.add(action.statement());
        });
    for (StatementAction action : sequence.actions()) {
      ActionCode control = codes.get(flag(action).index());
      body(action, control);
    }
  }

  /** Null after a diagnostic. */
  private Symbol target(Name name) {
    for (StatementAction action : sequence.actions()) {
      if (action.name().text().equalsIgnoreCase(name.text())) {
        return flag(action);
      }
    }
    return owners.actionTarget(name, sequence);
  }

  private Symbol flag(StatementAction action) {
    return layout.controller().find(sequence.name() + "." + action.name().text() + ".Q");
  }

  /**
   * Reads the statements.
   *
   * @param control null when no step asks for them
   */
  private void body(StatementAction action, ActionCode control) {
    Program program = StatementReader.read(action.statements(), scope, owners::refusal, problems);
    owners.claimStatements(program, sequence.name());
    if (control != null) {
      Symbol runs =
          layout.remember(sequence.name() + "#" + action.name().text() + ".runs", Type.BOOL);
      controls.add(control.activation(runs));
      bodies.add(Terms.when(Terms.read(runs), List.of(program.statements())));
    }
  }

  private static List<ActionCode.Request> requests(List<Request> asking) {
    return asking.stream()
        .map(r -> new ActionCode.Request(r.action.qualifier(), r.step, r.action.micros()))
        .toList();
  }

  /**
   * Two requests with a time that are active at once are an error of the standard (action control
   * contention); since SD, DS and SL outlast their steps, two are refused wherever they stand
   * [project choice].
   */
  private void refuseContention(List<Request> all) {
    List<Request> timed = all.stream().filter(r -> r.action.qualifier().isTimed()).toList();
    for (Request second : timed.subList(Math.min(1, timed.size()), timed.size())) {
      Action action = second.action;
      problems.add(
          Diagnostic.error(
                  Code.TWO_WRITERS,
                  action.target().position(),
                  "a second action with a time on `" + action.target().text() + "`")
              .expected("one action with L, D, SD, DS or SL on a point")
              .note(timed.get(0).action.target().position(), "the first one")
              .help("let each act on an internal point of its own and join them in the logic"));
    }
  }
}
