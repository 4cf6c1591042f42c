package bufferstop.scenario;

import bufferstop.model.Values;
import bufferstop.st.Expression;
import java.util.List;

/**
 * {@code eventually … within}: a condition holds in some scan up to a time. The margin is the time
 * left when it first held; without a time there is none.
 */
final class EventuallyMonitor implements Monitor {
  private static final double MICROS = 1e6;

  private final String text;
  private final Expression that;
  private final long withinMicros; // 0 for the end of the run
  private final Robustness robustness;
  private final Closest closest = new Closest(true);
  private final Watch watch;
  private long heldAt = -1;

  EventuallyMonitor(String text, Expression that, long withinMicros) {
    this.text = text;
    this.that = that;
    this.withinMicros = withinMicros;
    robustness = Robustness.of(that);
    watch = new Watch(that.reads());
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    if (heldAt >= 0 || withinMicros > 0 && nowMicros > withinMicros) {
      return;
    }
    closest.observe(robustness, cells, nowMicros);
    watch.observe(cells, nowMicros);
    if (that.truth(cells)) {
      heldAt = nowMicros;
    }
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    if (heldAt >= 0) {
      Double left = withinMicros == 0 ? null : Double.valueOf((withinMicros - heldAt) / MICROS);
      String unit = left == null ? "" : "s";
      return new ExpectationResult(text, Verdict.PASSED, left, unit, heldAt, "", List.of());
    }
    if (endMicros < withinMicros) {
      return new ExpectationResult(
          text,
          Verdict.INCONCLUSIVE,
          null,
          "",
          -1,
          "the run ended at " + Values.time(endMicros) + ", before its time was up",
          List.of());
    }
    return new ExpectationResult(
        text,
        Verdict.FAILED,
        closest.margin(),
        closest.margin() == null ? "" : closest.unit(),
        withinMicros == 0 ? endMicros : withinMicros,
        "it was never TRUE up to " + Values.time(withinMicros == 0 ? endMicros : withinMicros),
        watch.lines());
  }
}
