package bufferstop.engine;

import org.HdrHistogram.Histogram;

/** Counts what the real-time loop does; times in nanoseconds. Recording allocates nothing. */
public final class ScanStatistics {
  private static final long GREATEST = 60_000_000_000L;
  private static final int DIGITS = 3;

  private final Histogram lateness = new Histogram(GREATEST, DIGITS);
  private final Histogram execution = new Histogram(GREATEST, DIGITS);
  private volatile long scans;
  private volatile long skipped;

  void began(long lateNanos, long skippedPeriods) {
    lateness.recordValue(Math.min(lateNanos, GREATEST));
    skipped = skipped + skippedPeriods;
  }

  /** Records one scan's execution time. */
  void performed(long nanos) {
    execution.recordValue(Math.min(nanos, GREATEST));
    scans = scans + 1;
  }

  /** Scans performed; any thread. */
  public long scans() {
    return scans;
  }

  /** Periods without a scan; any thread. */
  public long skipped() {
    return skipped;
  }

  /** How late scans began; read it after the loop has ended. */
  public Histogram lateness() {
    return lateness;
  }

  /** How long scans took; read it after the loop has ended. */
  public Histogram execution() {
    return execution;
  }
}
