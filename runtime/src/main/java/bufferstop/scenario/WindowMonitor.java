package bufferstop.scenario;

import bufferstop.model.Scenario.Interval;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.ArrayList;
import java.util.List;

/**
 * {@code when … within … that …}, G(p → F[a,b] q), and {@code when … for … that …}, G(p → G[a,b]
 * q). The first margin of the former is the least time left. Source: Konrad and Cheng 2005, bounded
 * response and bounded invariance [second-hand].
 */
final class WindowMonitor implements Monitor {
  private static final double MICROS = 1e6;
  private static final int WHEN = 0;
  private static final int THAT = 1;

  /**
   * What is asked for after each scan in which a condition holds.
   *
   * @param eventually some scan of the window is enough; otherwise all are needed
   * @param afterMicros beginning of the window, after that scan
   * @param withinMicros end of the window, after that scan
   * @param during where that scan must lie
   */
  record Window(boolean eventually, long afterMicros, long withinMicros, Interval during) {}

  private final String text;
  private final Condition when;
  private final Condition that;
  private final Window window;
  private final Distances distances;
  private final WindowDistance[] byUnit;
  private final Evidence evidence;
  private final Times waiting = new Times(); // scans of the condition not settled yet
  private boolean triggered;
  private long leastLeft = Long.MAX_VALUE;
  private long leastAt = -1;
  private long failedSince = -1;

  WindowMonitor(String text, String unit, Condition when, Condition that, Window window) {
    this.text = text;
    this.when = when;
    this.that = that;
    this.window = window;
    distances = Distances.of(unit, when, that);
    byUnit = new WindowDistance[distances.count()];
    for (int i = 0; i < byUnit.length; i++) {
      byUnit[i] = new WindowDistance(window.eventually, window.afterMicros, window.withinMicros);
    }
    evidence = new Evidence(when, that);
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    evidence.observe(cells, nowMicros);
    boolean asks = when.truth(cells);
    boolean answers = that.truth(cells);
    boolean counts = window.during.holds(nowMicros);
    for (int i = 0; i < byUnit.length; i++) {
      double premise = counts ? distances.of(WHEN, i, cells, asks) : Double.NEGATIVE_INFINITY;
      byUnit[i].observe(nowMicros, premise, distances.of(THAT, i, cells, answers));
    }
    if (hasFailed()) {
      return;
    }
    if (asks && counts) {
      triggered = true;
      await(nowMicros);
    }
    if (window.eventually) {
      seekAnswer(cells, nowMicros, answers);
    } else {
      seekBreach(cells, nowMicros, answers);
    }
  }

  /** Where the window begins at once, the first of the waiting decides for F, the last for G. */
  private void await(long nowMicros) {
    boolean atOnce = window.afterMicros == 0;
    if (atOnce && !window.eventually && !waiting.isEmpty()) {
      waiting.removeLast();
    }
    if (!atOnce || !window.eventually || waiting.isEmpty()) {
      waiting.add(nowMicros);
    }
  }

  private void seekAnswer(long[] cells, long nowMicros, boolean answers) {
    boolean inTime = waiting.isEmpty() || nowMicros - waiting.first() <= window.withinMicros;
    if (answers && inTime) {
      while (!waiting.isEmpty() && nowMicros - waiting.first() >= window.afterMicros) {
        long left = waiting.removeFirst() + window.withinMicros - nowMicros;
        if (left < leastLeft) {
          leastLeft = left;
          leastAt = nowMicros;
        }
      }
    }
    if (!waiting.isEmpty() && nowMicros - waiting.first() >= window.withinMicros) {
      fail(cells, nowMicros);
    }
  }

  private void seekBreach(long[] cells, long nowMicros, boolean answers) {
    while (!waiting.isEmpty() && nowMicros - waiting.first() > window.withinMicros) {
      waiting.removeFirst();
    }
    if (!waiting.isEmpty() && !answers && nowMicros - waiting.first() >= window.afterMicros) {
      fail(cells, nowMicros);
    }
  }

  private void fail(long[] cells, long nowMicros) {
    failedSince = waiting.first();
    evidence.keep(cells, nowMicros);
  }

  @Override
  public boolean hasFailed() {
    return failedSince >= 0;
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    List<Margin> margins = new ArrayList<>();
    if (window.eventually && leastAt >= 0 && !hasFailed()) {
      margins.add(new Margin(leastLeft / MICROS, "s", leastAt));
    }
    for (int i = 0; i < byUnit.length; i++) {
      byUnit[i].finish(!hasFailed());
      if (!Double.isInfinite(byUnit[i].least())) {
        margins.add(new Margin(byUnit[i].least() + 0.0, distances.unit(i), byUnit[i].leastAt()));
      }
    }
    if (hasFailed()) {
      return ExpectationResult.of(text, Verdict.FAILED, margins, evidence.keptAt(), reason())
          .withValues(evidence.lines());
    }
    if (!triggered) {
      return ExpectationResult.open(text, "its condition `" + when.text() + "` never held");
    }
    if (isOpenAfter(endMicros)) {
      String what = window.eventually ? "its answer still open" : "before its time was up";
      String reason = "the run ended at " + Values.time(endMicros) + ", " + what;
      return ExpectationResult.open(text, reason);
    }
    return ExpectationResult.of(text, Verdict.PASSED, margins, -1, "");
  }

  private boolean isOpenAfter(long endMicros) {
    return !waiting.isEmpty()
        && (window.eventually || waiting.last() + window.withinMicros > endMicros);
  }

  private String reason() {
    String since = "the condition held at " + Values.time(failedSince);
    String until = Values.time(evidence.keptAt());
    return window.eventually
        ? since + " and no answer came up to " + until
        : since + " and `" + that.text() + "` was FALSE at " + until;
  }
}
