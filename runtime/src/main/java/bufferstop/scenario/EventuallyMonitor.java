package bufferstop.scenario;

import bufferstop.model.Values;
import java.util.List;

/**
 * {@code eventually … within}: a condition holds in some scan up to a time. The margin is the time
 * left when it first held; without a time there is none.
 */
final class EventuallyMonitor implements Monitor {
  private static final double MICROS = 1e6;

  private final String text;
  private final String unit; // of the margin when it fails; empty to take that of the quantity
  private final Condition that;
  private final long withinMicros; // 0 for the end of the run
  private final Robustness robustness;
  private final Closest closest = new Closest(true);
  private final Watch watch;
  private long heldAt = -1;

  EventuallyMonitor(String text, String unit, Condition that, long withinMicros) {
    this.text = text;
    this.unit = unit;
    this.that = that;
    this.withinMicros = withinMicros;
    robustness = Robustness.of(that.spelled());
    watch = new Watch(that.reads());
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    if (heldAt >= 0 || withinMicros > 0 && nowMicros > withinMicros) {
      return;
    }
    boolean holds = that.truth(cells);
    closest.observe(robustness, cells, holds, nowMicros);
    watch.observe(cells, nowMicros);
    if (holds) {
      heldAt = nowMicros;
    }
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    if (heldAt >= 0) {
      Double left = withinMicros == 0 ? null : Double.valueOf((withinMicros - heldAt) / MICROS);
      String shown = left == null ? "" : "s";
      return new ExpectationResult(text, Verdict.PASSED, left, shown, heldAt, "", List.of());
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
        closest.margin() == null ? "" : unit.isEmpty() ? closest.unit() : unit,
        withinMicros == 0 ? endMicros : withinMicros,
        "it was never TRUE up to " + Values.time(withinMicros == 0 ? endMicros : withinMicros),
        watch.lines());
  }
}
