package bufferstop.report;

import bufferstop.engine.ScanStatistics;
import java.util.Locale;
import org.HdrHistogram.Histogram;

/** Renders the statistics of a real-time run. */
public final class StatisticsText {
  private static final double MICROS = 1000.0;

  private StatisticsText() {}

  /** Count, period, skipped periods, lateness and execution as p50, p99, p99.9 and greatest. */
  public static String render(ScanStatistics statistics, long periodMicros) {
    return String.format(
        Locale.ROOT,
        "scans %d, period %.1f ms, skipped %d%n%s%n%s%n",
        statistics.scans(),
        periodMicros / MICROS,
        statistics.skipped(),
        line("lateness ", statistics.lateness()),
        line("execution", statistics.execution()));
  }

  private static String line(String what, Histogram nanos) {
    return String.format(
        Locale.ROOT,
        "%s p50 %.1f us, p99 %.1f us, p99.9 %.1f us, max %.1f us",
        what,
        nanos.getValueAtPercentile(50) / MICROS,
        nanos.getValueAtPercentile(99) / MICROS,
        nanos.getValueAtPercentile(99.9) / MICROS,
        nanos.getMaxValue() / MICROS);
  }
}
