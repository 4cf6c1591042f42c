package bufferstop.scenario;

import bufferstop.model.Scenario.Interval;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * {@code always … until} and {@code never … before}. The first is p U[a,b] q of the literature, p
 * being asked for in the scans before that of q alone; the second is (not p) W q, which is content
 * when q never holds if p never does. Sources: Donzé and Maler 2010, half-open form [from memory,
 * not re-read]; Dwyer et al. 1999, precedence [re-read]; that cause and effect may show in the same
 * scan [project choice].
 */
final class UntilMonitor implements Monitor {
  private static final double MICROS = 1e6;
  private static final int HOLD = 0;
  private static final int UNTIL = 1;

  private final String text;
  private final Condition hold;
  private final boolean wanted; // of hold: FALSE for never
  private final Condition until;
  private final Interval during;
  private final boolean weak;
  private final Distances distances;
  private final double[] held; // least distance of hold in all scans so far
  private final Worst best;
  private final Evidence evidence;
  private long brokenAt = -1; // hold had the wrong value, until not having held before
  private long untilAt = -1;
  private boolean failed;

  private UntilMonitor(
      String text,
      String unit,
      Condition hold,
      boolean wanted,
      Condition until,
      Interval during,
      boolean weak) {
    this.text = text;
    this.hold = hold;
    this.wanted = wanted;
    this.until = until;
    this.during = during;
    this.weak = weak;
    distances = Distances.of(unit, hold, until);
    held = new double[distances.count()];
    Arrays.fill(held, Double.POSITIVE_INFINITY);
    best = new Worst(true, distances.count());
    evidence = new Evidence(hold, until);
  }

  static Monitor until(String text, String unit, Condition hold, Condition until, Interval during) {
    return new UntilMonitor(text, unit, hold, true, until, during, false);
  }

  static Monitor precedence(String text, String unit, Condition never, Condition before) {
    return new UntilMonitor(text, unit, never, false, before, Interval.WHOLE, true);
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    evidence.observe(cells, nowMicros);
    boolean holds = hold.truth(cells);
    boolean ends = until.truth(cells);
    if (during.holds(nowMicros)) {
      for (int i = 0; i < held.length; i++) {
        best.observe(i, Math.min(distances.of(UNTIL, i, cells, ends), held[i]), nowMicros);
      }
      untilAt = untilAt < 0 && brokenAt < 0 && ends ? nowMicros : untilAt;
    }
    for (int i = 0; i < held.length; i++) {
      double distance = distances.of(HOLD, i, cells, holds);
      held[i] = Math.min(held[i], wanted ? distance : -distance);
    }
    brokenAt = brokenAt < 0 && untilAt < 0 && holds != wanted ? nowMicros : brokenAt;
    boolean late = during.toMicros() > 0 && nowMicros >= during.toMicros();
    if (untilAt < 0 && (brokenAt >= 0 || late)) {
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
    if (!failed && untilAt < 0 && during.isOpenAfter(endMicros)) {
      return ExpectationResult.open(text, Ends.early(endMicros));
    }
    List<Margin> margins = new ArrayList<>();
    boolean passed = untilAt >= 0 || weak && !failed;
    if (untilAt >= 0 && during.toMicros() > 0) {
      margins.add(new Margin((during.toMicros() - untilAt) / MICROS, "s", untilAt));
    }
    // p W q = p U q or G p; and what the rest of an open interval could still bring is at most held
    if (weak || failed && during.isOpenAfter(endMicros)) {
      for (int i = 0; i < held.length; i++) {
        best.observe(i, held[i], endMicros);
      }
    }
    best.addTo(margins, distances::unit);
    if (passed) {
      return ExpectationResult.of(text, Verdict.PASSED, margins, untilAt, "");
    }
    long at = brokenAt >= 0 ? brokenAt : during.toMicros() > 0 ? during.toMicros() : endMicros;
    return ExpectationResult.of(text, Verdict.FAILED, margins, at, reason(at))
        .withValues(evidence.lines());
  }

  private String reason(long at) {
    String until = "`" + this.until.text() + "`";
    return brokenAt >= 0
        ? "`%s` was %s at %s, before %s"
            .formatted(hold.text(), wanted ? "FALSE" : "TRUE", Values.time(at), until)
        : until + " was never TRUE up to " + Values.time(at);
  }
}
