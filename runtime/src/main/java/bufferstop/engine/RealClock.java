package bufferstop.engine;

import java.util.concurrent.locks.LockSupport;

/**
 * Real time by absolute deadlines on the monotonic clock, so that lateness never adds up and a jump
 * of the system's date does not matter.
 */
public final class RealClock implements Clock {
  private final long periodNanos;
  private final ScanStatistics statistics;
  private long dueNanos;
  private long beganNanos;
  private boolean running;

  public RealClock(long periodMicros, ScanStatistics statistics) {
    periodNanos = periodMicros * 1000;
    this.statistics = statistics;
  }

  @Override
  public long awaitNext() {
    long now = System.nanoTime();
    if (!running) {
      running = true;
      dueNanos = now;
    }
    while (now - dueNanos < 0) {
      LockSupport.parkNanos(dueNanos - now);
      now = System.nanoTime();
    }
    long late = now - dueNanos;
    long skipped = late / periodNanos;
    statistics.began(late, skipped);
    dueNanos += (1 + skipped) * periodNanos;
    beganNanos = now;
    return skipped;
  }

  /** Time stood still: the next scan is due at once and none was missed. */
  public void restart() {
    running = false;
  }

  @Override
  public long performed() {
    long nanos = System.nanoTime() - beganNanos;
    statistics.performed(nanos);
    return nanos;
  }
}
