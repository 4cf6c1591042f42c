package bufferstop.scenario;

import bufferstop.model.Symbol;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;

/**
 * {@code when … within … that …}: whenever the first holds, the second holds in that scan or a
 * later one up to a time; G(P → F[0,t] S) of the literature. The margin is the least time left.
 * Source: Konrad and Cheng 2005, bounded response [second-hand].
 */
final class ResponseMonitor implements Monitor {
  private static final double MICROS = 1e6;

  private final String text;
  private final Condition when;
  private final Condition that;
  private final long withinMicros;
  private final Watch watch;
  private boolean triggered;
  private long openSince = -1; // the earliest moment still unanswered
  private long leastLeft = Long.MAX_VALUE;
  private long leastAt = -1;
  private long failedAt = -1;
  private List<String> values = List.of();

  ResponseMonitor(String text, Condition when, long withinMicros, Condition that) {
    this.text = text;
    this.when = when;
    this.that = that;
    this.withinMicros = withinMicros;
    List<Symbol> seen = new ArrayList<>(when.reads());
    that.reads().stream().filter(s -> !seen.contains(s)).forEach(seen::add);
    watch = new Watch(seen);
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    watch.observe(cells, nowMicros);
    if (when.truth(cells)) {
      triggered = true;
      openSince = openSince < 0 ? nowMicros : openSince;
    }
    if (openSince < 0 || failedAt >= 0) {
      return;
    }
    if (that.truth(cells) && nowMicros - openSince <= withinMicros) {
      answer(nowMicros);
    } else if (nowMicros - openSince >= withinMicros) {
      failedAt = nowMicros;
      values = watch.lines();
    }
  }

  private void answer(long nowMicros) {
    long left = openSince + withinMicros - nowMicros;
    if (left < leastLeft) {
      leastLeft = left;
      leastAt = nowMicros;
    }
    openSince = -1;
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    if (failedAt >= 0) {
      String reason =
          "the condition held at "
              + Values.time(openSince)
              + " and no answer came up to "
              + Values.time(failedAt);
      return new ExpectationResult(text, Verdict.FAILED, null, "", failedAt, reason, values);
    }
    if (!triggered) {
      return inconclusive("its condition `" + when.text() + "` never held");
    }
    if (openSince >= 0) {
      return inconclusive("the run ended at " + Values.time(endMicros) + ", its answer still open");
    }
    return new ExpectationResult(
        text, Verdict.PASSED, leastLeft / MICROS, "s", leastAt, "", List.of());
  }

  private ExpectationResult inconclusive(String reason) {
    return new ExpectationResult(text, Verdict.INCONCLUSIVE, null, "", -1, reason, List.of());
  }
}
