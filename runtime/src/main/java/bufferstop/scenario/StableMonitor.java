package bufferstop.scenario;

import bufferstop.model.Scenario.Stable;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.ArrayList;
import java.util.List;

/**
 * {@code stable … for}: whenever a condition comes true it stays so for a time; G(rise(p) → G[0,t]
 * p). One that holds in the first scan has come true in it. The first margin is how much longer
 * than asked for it stayed, at least, from the scan that shows it to the one that no longer does.
 * Source: Konrad and Cheng 2005, minimum duration [second-hand].
 */
final class StableMonitor implements Monitor {
  private static final double MICROS = 1e6;

  private final Stable stable;
  private final Condition that;
  private final Distances distances;
  private final WindowDistance[] byUnit;
  private final Evidence evidence;
  private boolean before;
  private long roseAt = -1;
  private long leastOver = Long.MAX_VALUE;
  private long leastAt = -1;

  StableMonitor(Stable stable, Condition that) {
    this.stable = stable;
    this.that = that;
    distances = Distances.of(stable.unit(), that);
    byUnit = new WindowDistance[distances.count()];
    for (int i = 0; i < byUnit.length; i++) {
      byUnit[i] = new WindowDistance(false, 0, stable.lastingMicros());
    }
    evidence = new Evidence(that);
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    evidence.observe(cells, nowMicros);
    boolean holds = that.truth(cells);
    boolean rises = holds && !before;
    for (int i = 0; i < byUnit.length; i++) {
      double premise = rises ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
      byUnit[i].observe(nowMicros, premise, distances.of(0, i, cells, holds));
    }
    if (before && !holds) {
      note(nowMicros);
      if (nowMicros - roseAt <= stable.lastingMicros()) {
        evidence.keep(cells, nowMicros);
      }
    }
    roseAt = rises ? nowMicros : roseAt;
    before = holds;
  }

  private void note(long untilMicros) {
    long over = untilMicros - roseAt - stable.lastingMicros();
    if (over < leastOver) {
      leastOver = over;
      leastAt = untilMicros;
    }
  }

  @Override
  public boolean hasFailed() {
    return evidence.keptAt() >= 0;
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    boolean open = before && endMicros - roseAt < stable.lastingMicros();
    if (roseAt < 0) {
      return ExpectationResult.open(stable.text(), "`" + that.text() + "` never held");
    }
    if (open && !hasFailed()) {
      return ExpectationResult.open(stable.text(), Ends.early(endMicros));
    }
    if (before && !open) {
      note(endMicros);
    }
    List<Margin> margins = new ArrayList<>();
    margins.add(new Margin(leastOver / MICROS, "s", leastAt));
    for (int i = 0; i < byUnit.length; i++) {
      byUnit[i].finish(!hasFailed());
      if (!Double.isInfinite(byUnit[i].least())) {
        margins.add(new Margin(byUnit[i].least() + 0.0, distances.unit(i), byUnit[i].leastAt()));
      }
    }
    if (hasFailed()) {
      String reason = "it was FALSE again at " + Values.time(evidence.keptAt());
      return ExpectationResult.of(stable.text(), Verdict.FAILED, margins, -1, reason)
          .withValues(evidence.lines());
    }
    return ExpectationResult.of(stable.text(), Verdict.PASSED, margins, -1, "");
  }
}
