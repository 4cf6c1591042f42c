package bufferstop.scenario;

import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import java.util.ArrayList;
import java.util.List;

/** One scenario linked to one target: the door of this room. */
public final class ScenarioRun {
  private final Scenario scenario;
  private final Target target;
  private final List<PendingStimulus> stimuli;
  private final List<Monitor> monitors;
  private final List<List<Target.Happening>> before = new ArrayList<>(); // each first failure

  private ScenarioRun(
      Scenario scenario, Target target, List<PendingStimulus> stimuli, List<Monitor> monitors) {
    this.scenario = scenario;
    this.target = target;
    this.stimuli = stimuli;
    this.monitors = monitors;
    monitors.forEach(m -> before.add(null));
  }

  /** Resolves every name; what is wrong is reported and must keep the caller from running it. */
  public static ScenarioRun link(Scenario scenario, Target target, Diagnostics problems) {
    ScenarioLinker linker = new ScenarioLinker(target, problems);
    return new ScenarioRun(scenario, target, linker.stimuli(scenario), linker.monitors(scenario));
  }

  /** Runs it to its end; once. */
  public ScenarioResult run() {
    long began = System.nanoTime();
    long scans = 0;
    long last = -1;
    // judged is a copy, so that an expression that counts an error changes nothing in the run
    long[] seen = target.cells().clone();
    while (target.nextMicros() <= scenario.forMicros()) {
      for (PendingStimulus stimulus : stimuli) {
        stimulus.beforeScan(seen, last, target.nextMicros());
      }
      target.scan();
      last = target.nowMicros();
      scans++;
      System.arraycopy(target.cells(), 0, seen, 0, seen.length);
      for (int i = 0; i < monitors.size(); i++) {
        monitors.get(i).observe(seen, last);
        if (monitors.get(i).hasFailed() && before.get(i) == null) {
          before.set(i, target.lastHappenings());
        }
      }
    }
    return result(scans, last, System.nanoTime() - began);
  }

  private ScenarioResult result(long scans, long lastMicros, long wallNanos) {
    List<ExpectationResult> results = new ArrayList<>();
    Verdict verdict = Verdict.PASSED;
    for (int i = 0; i < monitors.size(); i++) {
      ExpectationResult result = monitors.get(i).finish(lastMicros);
      boolean atEnd = before.get(i) == null;
      verdict = verdict.and(result.verdict());
      results.add(
          result.verdict() == Verdict.PASSED
              ? result
              : result.withBefore(atEnd ? target.lastHappenings() : before.get(i)));
    }
    List<String> notes =
        stimuli.stream().filter(s -> !s.isDone()).map(PendingStimulus::describe).toList();
    if (!notes.isEmpty()) {
      verdict = verdict.and(Verdict.INCONCLUSIVE);
    }
    return new ScenarioResult(
        scenario,
        verdict,
        scans,
        lastMicros + target.periodMicros(),
        wallNanos,
        target.traceSha256(),
        List.copyOf(results),
        notes,
        target.bypasses(),
        target.alarms());
  }
}
