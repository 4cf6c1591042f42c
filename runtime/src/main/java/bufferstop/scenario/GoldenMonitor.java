package bufferstop.scenario;

import bufferstop.model.Scenario.Golden;
import bufferstop.model.Values;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/**
 * {@code golden}: values run as in a stored run. Each value of this run must be near one that the
 * stored run has within the shift before or after, and each row of the stored run near a value of
 * this one; so neither may show what the other does not.
 */
final class GoldenMonitor implements Monitor {
  private final Golden golden;
  private final List<GoldenColumn> columns;
  private final long[] micros; // of the rows
  private final List<String> units = new ArrayList<>();
  private final Worst worst;
  private final Deque<Sample> recent = new ArrayDeque<>(); // as old as a row may ask for
  private int firstRow; // the last one that held at the beginning of the window
  private int nextRow; // the first one no sample was looked for yet
  private boolean compared;
  private long failedAt = -1;
  private String reason = "";

  private record Sample(long micros, long[] bits) {}

  GoldenMonitor(Golden golden, List<GoldenColumn> columns) {
    this.golden = golden;
    this.columns = columns;
    micros = golden.run().micros();
    columns.stream().map(GoldenColumn::unit).distinct().forEach(units::add);
    worst = new Worst(false, units.size());
  }

  @Override
  public void observe(long[] cells, long nowMicros) {
    long[] bits = columns.stream().mapToLong(c -> c.bits(cells)).toArray();
    recent.addLast(new Sample(nowMicros, bits));
    if (golden.during().holds(nowMicros)) {
      compareWithRows(bits, nowMicros);
    }
    while (nextRow < micros.length && micros[nextRow] + golden.shiftMicros() <= nowMicros) {
      if (golden.during().holds(micros[nextRow])) {
        compareWithSamples(nextRow, nowMicros);
      }
      nextRow++;
    }
    while (recent.getFirst().micros < nowMicros - 2 * golden.shiftMicros()) {
      recent.removeFirst();
    }
  }

  private void compareWithRows(long[] bits, long nowMicros) {
    long from = nowMicros - golden.shiftMicros();
    while (firstRow + 1 < micros.length && micros[firstRow + 1] <= from) {
      firstRow++;
    }
    if (micros[0] > nowMicros) {
      return; // the stored run begins later
    }
    for (int c = 0; c < columns.size(); c++) {
      GoldenColumn column = columns.get(c);
      double least = Double.POSITIVE_INFINITY;
      int nearest = -1;
      for (int r = firstRow; r < micros.length && isNear(r, nowMicros); r++) {
        if (column.present()[r] && (nearest < 0 || column.deviation(r, bits[c]) < least)) {
          least = column.deviation(r, bits[c]);
          nearest = r;
        }
      }
      if (nearest >= 0) {
        judge(column, least, bits[c], column.stored()[nearest], nowMicros, nowMicros);
      }
    }
  }

  private boolean isNear(int row, long nowMicros) {
    return micros[row] <= nowMicros + golden.shiftMicros();
  }

  private void compareWithSamples(int row, long nowMicros) {
    for (int c = 0; c < columns.size(); c++) {
      GoldenColumn column = columns.get(c);
      double least = Double.POSITIVE_INFINITY;
      long nearest = 0;
      boolean any = false;
      for (Sample sample : recent) {
        boolean near = Math.abs(sample.micros - micros[row]) <= golden.shiftMicros();
        if (near && (!any || column.deviation(row, sample.bits[c]) < least)) {
          least = column.deviation(row, sample.bits[c]);
          nearest = sample.bits[c];
          any = true;
        }
      }
      if (any && column.present()[row]) {
        judge(column, least, nearest, column.stored()[row], micros[row], nowMicros);
      }
    }
  }

  private void judge(
      GoldenColumn column, double deviation, long bits, long stored, long atMicros, long now) {
    compared = true;
    double left = column.tolerance() - deviation;
    if (!Double.isInfinite(deviation) && column.symbol().type().isNumber()
        || column.unit().equals("s")) {
      worst.observe(units.indexOf(column.unit()), left, atMicros);
    }
    if (failedAt < 0 && !(left >= 0)) {
      failedAt = now;
      reason =
          "`%s` was %s at %s and %s in the stored run"
              .formatted(
                  column.symbol().name(),
                  column.shown(bits),
                  Values.time(atMicros),
                  column.shown(stored));
    }
  }

  @Override
  public boolean hasFailed() {
    return failedAt >= 0;
  }

  @Override
  public ExpectationResult finish(long endMicros) {
    List<Margin> margins = new ArrayList<>();
    worst.addTo(margins, units::get);
    if (failedAt >= 0) {
      return ExpectationResult.of(golden.text(), Verdict.FAILED, margins, failedAt, reason);
    }
    if (!compared || golden.during().isOpenAfter(endMicros)) {
      String why = compared ? Ends.early(endMicros) : "no row of the stored run lies in the run";
      return ExpectationResult.open(golden.text(), why);
    }
    return ExpectationResult.of(golden.text(), Verdict.PASSED, margins, -1, "");
  }
}
