package bufferstop.scenario;

import bufferstop.model.Scenario.Interval;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.ArrayList;
import java.util.List;

/**
 * {@code always} and {@code never}: a condition has one value in every scan of an interval; G[a,b]
 * of the literature.
 */
final class InvariantMonitor implements Monitor {
  private final String text;
  private final Condition that;
  private final boolean wanted;
  private final Interval during;
  private final Distances distances;
  private final Worst least;
  private final Evidence evidence;
  private boolean seen;

  /**
   * @param wanted TRUE for always, FALSE for never
   */
  InvariantMonitor(String text, String unit, Condition that, boolean wanted, Interval during) {
    this.text = text;
    this.that = that;
    this.wanted = wanted;
    this.during = during;
    distances = Distances.of(unit, that);
    least = new Worst(false, distances.count());
    evidence = new Evidence(that);
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    evidence.observe(cells, nowMicros);
    if (!during.holds(nowMicros)) {
      return;
    }
    seen = true;
    boolean holds = that.truth(cells);
    for (int i = 0; i < distances.count(); i++) {
      double distance = distances.of(0, i, cells, holds);
      least.observe(i, wanted ? distance : -distance, nowMicros);
    }
    if (holds != wanted) {
      evidence.keep(cells, nowMicros);
    }
  }

  @Override
  public boolean hasFailed() {
    return evidence.keptAt() >= 0;
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    List<Margin> margins = new ArrayList<>();
    least.addTo(margins, distances::unit);
    long failedAt = evidence.keptAt();
    if (failedAt >= 0) {
      String reason = "it was " + (wanted ? "FALSE" : "TRUE") + " at " + Values.time(failedAt);
      return ExpectationResult.of(text, Verdict.FAILED, margins, failedAt, reason)
          .withValues(evidence.lines());
    }
    if (during.isOpenAfter(endMicros) || !seen) {
      return ExpectationResult.open(text, Ends.early(endMicros));
    }
    return ExpectationResult.of(text, Verdict.PASSED, margins, -1, "");
  }
}
