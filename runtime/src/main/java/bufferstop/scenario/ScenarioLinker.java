package bufferstop.scenario;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Always;
import bufferstop.model.Scenario.Eventually;
import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Never;
import bufferstop.model.Scenario.Response;
import bufferstop.model.Scenario.Stimulus;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
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
      if (prepared != null && (text == null || when != null)) {
        all.add(new PendingStimulus(stimulus, when, prepared));
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
    if (expectation instanceof Always a) {
      Condition that = read(a.that(), scope, found);
      return that == null ? null : new InvariantMonitor(a.text(), a.unit(), that, true);
    }
    if (expectation instanceof Never n) {
      Condition that = read(n.that(), scope, found);
      return that == null ? null : new InvariantMonitor(n.text(), n.unit(), that, false);
    }
    if (expectation instanceof Eventually e) {
      Condition that = read(e.that(), scope, found);
      return that == null
          ? null
          : new EventuallyMonitor(e.text(), e.unit(), that, e.withinMicros());
    }
    Response r = (Response) expectation;
    Condition when = read(r.when(), scope, found);
    Condition that = read(r.that(), scope, found);
    return when == null || that == null
        ? null
        : new ResponseMonitor(r.text(), when, r.withinMicros(), that);
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
