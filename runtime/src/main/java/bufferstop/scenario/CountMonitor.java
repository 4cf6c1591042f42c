package bufferstop.scenario;

import bufferstop.model.Scenario.Count;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.List;

/**
 * {@code count … between}: how often a condition comes true in an interval. One that holds in the
 * interval's first scan has come true in it if it did not hold in the scan before.
 */
final class CountMonitor implements Monitor {
  private final Count count;
  private final Condition that;
  private final Evidence evidence;
  private boolean before;
  private long times;
  private long lastAt = -1;

  CountMonitor(Count count, Condition that) {
    this.count = count;
    this.that = that;
    evidence = new Evidence(that);
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    evidence.observe(cells, nowMicros);
    boolean holds = that.truth(cells);
    if (holds && !before && count.during().holds(nowMicros)) {
      times++;
      lastAt = nowMicros;
    }
    before = holds;
    boolean over = count.during().toMicros() > 0 && nowMicros >= count.during().toMicros();
    if (times > count.greatest() || over && times < count.least()) {
      evidence.keep(cells, nowMicros);
    }
  }

  @Override
  public boolean hasFailed() {
    return evidence.keptAt() >= 0;
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    boolean open = count.during().isOpenAfter(endMicros) || count.during().fromMicros() > endMicros;
    if (open && times <= count.greatest()) {
      return ExpectationResult.open(count.text(), Ends.early(endMicros));
    }
    long left = Math.min(times - count.least(), count.greatest() - times);
    Margin margin = new Margin(left, "times", lastAt < 0 ? endMicros : lastAt);
    if (left >= 0) {
      return ExpectationResult.of(count.text(), Verdict.PASSED, List.of(margin), -1, "");
    }
    String last = lastAt < 0 ? "" : ", last at " + Values.time(lastAt);
    String reason = "it came true " + times + (times == 1 ? " time" : " times") + last;
    return ExpectationResult.of(count.text(), Verdict.FAILED, List.of(margin), -1, reason)
        .withValues(evidence.lines());
  }
}
