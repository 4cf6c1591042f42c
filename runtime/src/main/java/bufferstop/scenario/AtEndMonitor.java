package bufferstop.scenario;

import bufferstop.model.Scenario.AtEnd;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.ArrayList;
import java.util.List;

/** {@code at_end}: a condition holds in the last scan. */
final class AtEndMonitor implements Monitor {
  private final AtEnd atEnd;
  private final Condition that;
  private final Distances distances;
  private final double[] last;
  private final Evidence evidence;
  private final long[] image;
  private boolean holds;

  /**
   * @param cells size of the image
   */
  AtEndMonitor(AtEnd atEnd, Condition that, int cells) {
    this.atEnd = atEnd;
    this.that = that;
    distances = Distances.of(atEnd.unit(), that);
    last = new double[distances.count()];
    evidence = new Evidence(that);
    image = new long[cells];
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    evidence.observe(cells, nowMicros);
    holds = that.truth(cells);
    for (int i = 0; i < last.length; i++) {
      last[i] = distances.of(0, i, cells, holds);
    }
    System.arraycopy(cells, 0, image, 0, image.length);
  }

  @Override
  public boolean hasFailed() {
    return false; // before the end nothing is decided
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    Worst worst = new Worst(false, last.length);
    for (int i = 0; i < last.length; i++) {
      worst.observe(i, last[i], endMicros);
    }
    List<Margin> margins = new ArrayList<>();
    worst.addTo(margins, distances::unit);
    if (holds) {
      return ExpectationResult.of(atEnd.text(), Verdict.PASSED, margins, endMicros, "");
    }
    evidence.keep(image, endMicros);
    String reason = "it was FALSE at the end, " + Values.time(endMicros);
    return ExpectationResult.of(atEnd.text(), Verdict.FAILED, margins, endMicros, reason)
        .withValues(evidence.lines());
  }
}
