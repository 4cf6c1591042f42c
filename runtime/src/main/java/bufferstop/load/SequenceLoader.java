package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Controller.Abort;
import bufferstop.model.Controller.Hold;
import bufferstop.model.Controller.Manual;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.StatementAction;
import bufferstop.model.Controller.Step;
import bufferstop.model.Controller.Transition;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;

/** Reads sequences: steps with their actions, transitions, abort, hold, manual stepping. */
final class SequenceLoader {
  private final Sections sections;
  private final Diagnostics problems;

  SequenceLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  List<Sequence> read(TableReader controller) {
    List<Sequence> sequences = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, "sequences", "sequences by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, ControllerForms.SEQUENCE, problems);
      Sequence sequence = reader == null ? null : sequence(entry.key(), reader);
      if (sequence != null && named) {
        sequences.add(sequence);
      } else {
        problems.doubt(entry.key().text());
      }
    }
    return List.copyOf(sequences);
  }

  /** Null, after a diagnostic, when its steps cannot be told. */
  private Sequence sequence(Name name, TableReader reader) {
    Tree.Entry stepsEntry = reader.entry("steps");
    reader.required("steps");
    TableReader table =
        stepsEntry == null ? null : TableReader.open(stepsEntry, "steps by name", problems);
    List<StatementAction> actions = actions(name, reader.entry("actions"));
    List<Step> steps = table == null ? List.of() : steps(name, table, actions);
    List<Transition> transitions = transitions(reader.required("transitions"));
    Tree.Entry abortEntry = reader.entry("abort");
    Abort abort = abortEntry == null ? null : abort(abortEntry);
    Hold hold = hold(reader.entry("hold"));
    Manual manual = manual(reader.entry("manual"));
    reader.finish();
    if (table == null) {
      return null;
    }
    if (steps.size() == table.entries().size()) {
      checkInitial(name, steps);
    }
    return new Sequence(
        name.text(), steps, transitions, actions, abort, hold, manual, name.position());
  }

  private List<StatementAction> actions(Name sequence, Tree.Entry entry) {
    List<StatementAction> actions = new ArrayList<>();
    TableReader table = entry == null ? null : TableReader.open(entry, "actions by name", problems);
    for (Tree.Entry action : table == null ? List.<Tree.Entry>of() : table.entries()) {
      boolean named = Identifiers.check(action.key(), problems);
      SourceText statements = TableReader.textOf(action, problems);
      if (named && statements != null) {
        actions.add(new StatementAction(action.key(), statements));
      } else {
        problems.doubt(sequence.text() + "." + action.key().text());
      }
    }
    return List.copyOf(actions);
  }

  private void checkInitial(Name name, List<Step> steps) {
    List<Step> initial = steps.stream().filter(Step::initial).toList();
    if (initial.isEmpty()) {
      problems.add(
          Diagnostic.error(
                  Code.NO_INITIAL_STEP,
                  name.position(),
                  "`" + name.text() + "` has no initial step")
              .expected("a step with initial: TRUE, or several"));
    }
  }

  private Abort abort(Tree.Entry entry) {
    TableReader reader = TableReader.open(entry, ControllerForms.ABORT, problems);
    if (reader == null) {
      return null;
    }
    SourceText when = reader.requiredText("when");
    Name to = reader.requiredName("to");
    reader.finish();
    return when == null || to == null ? null : new Abort(when, to);
  }

  private Hold hold(Tree.Entry entry) {
    TableReader reader =
        entry == null ? null : TableReader.open(entry, ControllerForms.HOLD, problems);
    if (reader == null) {
      return null;
    }
    SourceText when = reader.requiredText("when");
    SourceText restart = reader.text("restart");
    reader.finish();
    return when == null ? null : new Hold(when, restart);
  }

  private Manual manual(Tree.Entry entry) {
    TableReader reader =
        entry == null ? null : TableReader.open(entry, ControllerForms.MANUAL, problems);
    if (reader == null) {
      return null;
    }
    SourceText when = reader.requiredText("when");
    SourceText next = reader.requiredText("next");
    reader.finish();
    return when == null || next == null ? null : new Manual(when, next);
  }

  private List<Step> steps(Name sequence, TableReader table, List<StatementAction> actions) {
    List<Step> steps = new ArrayList<>();
    for (Tree.Entry entry : table.entries()) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader =
          TableReader.knowing(
              sections.definitions(), TableReader.open(entry, ControllerForms.STEP, problems));
      Step step = reader == null ? null : step(entry.key(), reader, actions);
      if (step != null && named) {
        steps.add(step);
      } else {
        problems.doubt(sequence.text() + "." + entry.key().text());
      }
    }
    return List.copyOf(steps);
  }

  private Step step(Name name, TableReader reader, List<StatementAction> actions) {
    Step step =
        new Step(
            name.text(),
            reader.bool("initial", false),
            reader.bool("final", false),
            reader.name("run"),
            new ActionLoader(actions, problems).read(reader.entry("do")),
            reader.time("at_least", 0, 1),
            reader.time("within", 0, 1),
            reader.words("text"),
            name.position());
    reader.finish();
    checkTimes(step, reader);
    return step;
  }

  /** A step that must last longer than it may is late every time. */
  private void checkTimes(Step step, TableReader reader) {
    if (step.withinMicros() > 0 && step.atLeastMicros() > step.withinMicros()) {
      SourceText least = reader.text("at_least");
      SourceText most = reader.text("within");
      problems.add(
          Diagnostic.error(Code.BAD_TIMES, least.whole(), "`at_least` is longer than `within`")
              .expected("at most " + most.value())
              .note(most.whole(), "later than this it is late"));
    }
  }

  private List<Transition> transitions(Tree tree) {
    List<Transition> transitions = new ArrayList<>();
    if (tree != null && !(tree instanceof Tree.Items)) {
      problems.add(
          Diagnostic.error(Code.WRONG_KIND, tree.position(), "`transitions` is no list")
              .expected("a list of {from: , to: , when: }"));
    }
    if (tree instanceof Tree.Items items) {
      for (Tree item : items.items()) {
        TableReader reader = TableReader.open(item, ControllerForms.TRANSITION, problems);
        if (reader != null) {
          List<Name> from = reader.requiredNames("from");
          List<Name> to = reader.requiredNames("to");
          SourceText when = reader.requiredText("when");
          reader.finish();
          if (when != null) {
            transitions.add(new Transition(from, to, when, reader.position()));
          }
        }
      }
    }
    return List.copyOf(transitions);
  }
}
