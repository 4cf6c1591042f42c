package bufferstop.scenario;

import bufferstop.model.Scenario.Interval;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.ArrayList;
import java.util.List;

/**
 * {@code eventually}: a condition holds in some scan of an interval; F[a,b] of the literature.
 * Where the interval has an end the first margin is the time left when it first held.
 */
final class EventuallyMonitor implements Monitor {
  private static final double MICROS = 1e6;

  private final String text;
  private final Condition that;
  private final Interval during;
  private final Distances distances;
  private final Worst greatest;
  private final Evidence evidence;
  private long heldAt = -1;
  private boolean failed;

  EventuallyMonitor(String text, String unit, Condition that, Interval during) {
    this.text = text;
    this.that = that;
    this.during = during;
    distances = Distances.of(unit, that);
    greatest = new Worst(true, distances.count());
    evidence = new Evidence(that);
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    evidence.observe(cells, nowMicros);
    if (during.holds(nowMicros)) {
      boolean holds = that.truth(cells);
      for (int i = 0; i < distances.count(); i++) {
        greatest.observe(i, distances.of(0, i, cells, holds), nowMicros);
      }
      heldAt = heldAt < 0 && holds ? nowMicros : heldAt;
    }
    if (heldAt < 0 && during.toMicros() > 0 && nowMicros >= during.toMicros()) {
      failed = true;
      evidence.keep(cells, nowMicros);
    }
  }

  @Override
  public boolean hasFailed() {
    return failed;
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    List<Margin> margins = new ArrayList<>();
    long limit = during.toMicros();
    if (heldAt >= 0) {
      if (limit > 0) {
        margins.add(new Margin((limit - heldAt) / MICROS, "s", heldAt));
      }
      greatest.addTo(margins, distances::unit);
      return ExpectationResult.of(text, Verdict.PASSED, margins, heldAt, "");
    }
    if (during.isOpenAfter(endMicros) || during.fromMicros() > endMicros) {
      return ExpectationResult.open(text, Ends.early(endMicros));
    }
    greatest.addTo(margins, distances::unit);
    long at = limit == 0 ? endMicros : limit;
    List<Margin> here = margins.stream().map(m -> new Margin(m.value(), m.unit(), at)).toList();
    return ExpectationResult.of(
            text, Verdict.FAILED, here, at, "it was never TRUE up to " + Values.time(at))
        .withValues(evidence.lines());
  }
}
