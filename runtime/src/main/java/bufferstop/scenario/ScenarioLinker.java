package bufferstop.scenario;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Always;
import bufferstop.model.Scenario.AtEnd;
import bufferstop.model.Scenario.Count;
import bufferstop.model.Scenario.Eventually;
import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Golden;
import bufferstop.model.Scenario.Never;
import bufferstop.model.Scenario.Persistence;
import bufferstop.model.Scenario.Precedence;
import bufferstop.model.Scenario.Response;
import bufferstop.model.Scenario.Stable;
import bufferstop.model.Scenario.Stimulus;
import bufferstop.model.Scenario.Until;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import bufferstop.scenario.WindowMonitor.Window;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;

/** Resolves a scenario against a target. */
final class ScenarioLinker {
  private final Target target;
  private final Diagnostics problems;

  ScenarioLinker(Target target, Diagnostics problems) {
    this.target = target;
    this.problems = problems;
  }

  /** The stimuli that could be resolved. */
  List<PendingStimulus> stimuli(Scenario scenario) {
    List<PendingStimulus> all = new ArrayList<>();
    for (Stimulus stimulus : scenario.stimuli()) {
      SourceText text = stimulus.trigger().when();
      Expression when =
          text == null ? null : ExpressionReader.read(text, target.scope(), Type.BOOL, problems);
      Target.Prepared prepared = target.prepare(stimulus.deed(), problems);
      String follows = stimulus.trigger().follows();
      PendingStimulus leader =
          all.stream()
              .filter(p -> !follows.isEmpty() && p.id().equals(follows))
              .findFirst()
              .orElse(null);
      boolean caused = (text == null || when != null) && (follows.isEmpty() || leader != null);
      if (prepared != null && caused) {
        all.add(new PendingStimulus(stimulus, when, leader, prepared));
      }
    }
    return all;
  }

  /**
   * A monitor for each expectation. One that names what this target does not have cannot be judged:
   * that is a warning and an inconclusive verdict, since scenarios are shared between projects.
   */
  List<Monitor> monitors(Scenario scenario) {
    return scenario.expectations().stream().map(this::monitor).toList();
  }

  private Monitor monitor(Expectation expectation) {
    Diagnostics found = new Diagnostics();
    RecordingScope scope = new RecordingScope(target.scope());
    Monitor monitor = monitor(expectation, scope, found);
    if (found.hasErrors() && !scope.unknown().isEmpty()) {
      for (Diagnostic d : found.sorted()) {
        problems.add(
            new Diagnostic(
                Diagnostic.Severity.WARNING,
                Code.CANNOT_BE_JUDGED,
                d.position(),
                d.message() + ", so this expectation cannot be judged",
                d.expected(),
                d.notes(),
                d.help()));
      }
      return Monitor.unobservable(
          expectation.text(), "`" + scope.unknown().get(0) + "` cannot be observed here");
    }
    found.sorted().forEach(problems::add);
    return monitor == null ? Monitor.unobservable(expectation.text(), "it is wrong") : monitor;
  }

  private Monitor monitor(Expectation expectation, RecordingScope scope, Diagnostics found) {
    if (expectation instanceof Golden golden) {
      return new GoldenLinker(golden, scope, found).link();
    }
    List<Condition> read = new ArrayList<>();
    for (SourceText text : conditions(expectation)) {
      Condition condition = read(text, scope, found);
      if (condition != null) {
        read.add(condition);
      }
    }
    return read.size() < conditions(expectation).size() ? null : monitor(expectation, read);
  }

  private static List<SourceText> conditions(Expectation expectation) {
    if (expectation instanceof Always a) {
      return List.of(a.that());
    } else if (expectation instanceof Never n) {
      return List.of(n.that());
    } else if (expectation instanceof Eventually e) {
      return List.of(e.that());
    } else if (expectation instanceof Until u) {
      return List.of(u.hold(), u.until());
    } else if (expectation instanceof Precedence p) {
      return List.of(p.never(), p.before());
    } else if (expectation instanceof Response r) {
      return List.of(r.when(), r.that());
    } else if (expectation instanceof Persistence p) {
      return List.of(p.when(), p.that());
    } else if (expectation instanceof Stable s) {
      return List.of(s.that());
    } else if (expectation instanceof Count c) {
      return List.of(c.that());
    }
    return List.of(((AtEnd) expectation).that());
  }

  private Monitor monitor(Expectation expectation, List<Condition> read) {
    Condition first = read.get(0);
    if (expectation instanceof Always a) {
      return new InvariantMonitor(a.text(), a.unit(), first, true, a.during());
    } else if (expectation instanceof Never n) {
      return new InvariantMonitor(n.text(), n.unit(), first, false, n.during());
    } else if (expectation instanceof Eventually e) {
      return new EventuallyMonitor(e.text(), e.unit(), first, e.during());
    } else if (expectation instanceof Until u) {
      return UntilMonitor.until(u.text(), u.unit(), first, read.get(1), u.during());
    } else if (expectation instanceof Precedence p) {
      return UntilMonitor.precedence(p.text(), p.unit(), first, read.get(1));
    } else if (expectation instanceof Response r) {
      Window window = new Window(true, r.afterMicros(), r.withinMicros(), r.during());
      return new WindowMonitor(r.text(), r.unit(), first, read.get(1), window);
    } else if (expectation instanceof Persistence p) {
      Window window = new Window(false, p.afterMicros(), p.lastingMicros(), p.during());
      return new WindowMonitor(p.text(), p.unit(), first, read.get(1), window);
    } else if (expectation instanceof Stable s) {
      return new StableMonitor(s, first);
    } else if (expectation instanceof Count c) {
      return new CountMonitor(c, first);
    }
    return new AtEndMonitor((AtEnd) expectation, first, target.cells().length);
  }

  private Condition read(SourceText text, RecordingScope scope, Diagnostics found) {
    Expression judged = ExpressionReader.read(text, scope, Type.BOOL, found);
    return judged == null
        ? null
        : new Condition(
            judged,
            ExpressionReader.read(text, scope, target::condition, Type.BOOL, new Diagnostics()));
  }
}
