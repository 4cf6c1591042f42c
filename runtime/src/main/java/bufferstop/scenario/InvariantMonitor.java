package bufferstop.scenario;

import bufferstop.model.Values;
import bufferstop.st.Expression;
import java.util.List;

/** {@code always} and {@code never}: a condition has one value in every scan. */
final class InvariantMonitor implements Monitor {
  private final String text;
  private final String unit;
  private final Expression that;
  private final boolean wanted;
  private final Robustness robustness;
  private final Closest closest;
  private final Watch watch;
  private long failedAt = -1;
  private List<String> values = List.of();

  /**
   * @param wanted TRUE for always, FALSE for never
   */
  InvariantMonitor(String text, String unit, Expression that, boolean wanted) {
    this.text = text;
    this.unit = unit;
    this.that = that;
    this.wanted = wanted;
    robustness = Robustness.of(that);
    closest = new Closest(!wanted);
    watch = new Watch(that.reads());
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    closest.observe(robustness, cells, nowMicros);
    watch.observe(cells, nowMicros);
    if (failedAt < 0 && that.truth(cells) != wanted) {
      failedAt = nowMicros;
      values = watch.lines();
    }
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    Double distance = closest.margin();
    Double margin = distance == null || wanted ? distance : Double.valueOf(-distance);
    String shown = unit.isEmpty() ? closest.unit() : unit;
    if (failedAt < 0) {
      long at = margin == null ? -1 : closest.atMicros();
      return new ExpectationResult(text, Verdict.PASSED, margin, shown, at, "", List.of());
    }
    String reason = "it was " + (wanted ? "FALSE" : "TRUE") + " at " + Values.time(failedAt);
    return new ExpectationResult(text, Verdict.FAILED, margin, shown, failedAt, reason, values);
  }
}
