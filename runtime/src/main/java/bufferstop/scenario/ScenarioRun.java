package bufferstop.scenario;

import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import java.util.ArrayList;
import java.util.List;

/** One scenario linked to one target: the door of this room. */
public final class ScenarioRun {
  private static final int HAPPENINGS_KEPT = 10;

  private final Scenario scenario;
  private final Target target;
  private final List<PendingStimulus> stimuli;
  private final List<Monitor> monitors;

  private ScenarioRun(
      Scenario scenario, Target target, List<PendingStimulus> stimuli, List<Monitor> monitors) {
    this.scenario = scenario;
    this.target = target;
    this.stimuli = stimuli;
    this.monitors = monitors;
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
    long last = 0;
    // judged is a copy, so that an expression that counts an error changes nothing in the run
    long[] seen = target.cells().clone();
    while (target.nextMicros() <= scenario.forMicros()) {
      last = target.nextMicros();
      for (PendingStimulus stimulus : stimuli) {
        stimulus.beforeScan(seen, last);
      }
      target.scan();
      scans++;
      System.arraycopy(target.cells(), 0, seen, 0, seen.length);
      for (Monitor monitor : monitors) {
        monitor.observe(seen, last);
      }
    }
    return result(scans, last, System.nanoTime() - began);
  }

  private ScenarioResult result(long scans, long lastMicros, long wallNanos) {
    List<ExpectationResult> results = new ArrayList<>();
    Verdict verdict = Verdict.PASSED;
    for (Monitor monitor : monitors) {
      ExpectationResult result = monitor.finish(lastMicros);
      verdict = verdict.and(result.verdict());
      results.add(result);
    }
    List<String> notes =
        stimuli.stream().filter(s -> !s.isDone()).map(PendingStimulus::describe).toList();
    if (!notes.isEmpty()) {
      verdict = verdict.and(Verdict.INCONCLUSIVE);
    }
    List<Target.Happening> all = target.happenings();
    return new ScenarioResult(
        scenario,
        verdict,
        scans,
        scans * target.periodMicros(),
        wallNanos,
        target.traceSha256(),
        List.copyOf(results),
        notes,
        List.copyOf(all.subList(Math.max(0, all.size() - HAPPENINGS_KEPT), all.size())),
        target.bypasses());
  }
}
