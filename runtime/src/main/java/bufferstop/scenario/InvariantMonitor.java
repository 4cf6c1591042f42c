package bufferstop.scenario;

import bufferstop.model.Values;
import java.util.List;

/** {@code always} and {@code never}: a condition has one value in every scan. */
final class InvariantMonitor implements Monitor {
  private final String text;
  private final String unit;
  private final Condition that;
  private final boolean wanted;
  private final Robustness robustness;
  private final Closest closest;
  private final Watch watch;
  private long failedAt = -1;
  private List<String> values = List.of();

  /**
   * @param wanted TRUE for always, FALSE for never
   */
  InvariantMonitor(String text, String unit, Condition that, boolean wanted) {
    this.text = text;
    this.unit = unit;
    this.that = that;
    this.wanted = wanted;
    robustness = Robustness.of(that.spelled());
    closest = new Closest(!wanted);
    watch = new Watch(that.reads());
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    boolean holds = that.truth(cells);
    closest.observe(robustness, cells, holds, nowMicros);
    watch.observe(cells, nowMicros);
    if (failedAt < 0 && holds != wanted) {
      failedAt = nowMicros;
      values = watch.lines();
    }
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    Double distance = closest.margin();
    Double margin = distance == null || wanted ? distance : Double.valueOf(0.0 - distance);
    String shown = unit.isEmpty() ? closest.unit() : unit;
    long at = margin == null ? failedAt : closest.atMicros();
    if (failedAt < 0) {
      return new ExpectationResult(text, Verdict.PASSED, margin, shown, at, "", List.of());
    }
    String reason = "it was " + (wanted ? "FALSE" : "TRUE") + " at " + Values.time(failedAt);
    return new ExpectationResult(text, Verdict.FAILED, margin, shown, at, reason, values);
  }
}
