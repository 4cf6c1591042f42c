package bufferstop.modbus;

import org.HdrHistogram.Histogram;

/**
 * How regularly a client asks: the time from one question to the next one that is the same. One
 * thread counts, any may look at the count; the histogram is for later.
 */
public final class PollCycles {
  private static final long GREATEST = 60_000_000_000L;

  private final Histogram nanos = new Histogram(GREATEST, 3);
  private long first = -1; // unit, function and address of the question that is watched
  private long lastNanos;
  private volatile long requests;

  void count(int unit, int function, int address, long nowNanos) {
    long key = (long) unit << 24 | (long) function << 16 | address;
    if (first < 0) {
      first = key;
      lastNanos = nowNanos;
    } else if (key == first) {
      nanos.recordValue(Math.min(GREATEST, Math.max(0, nowNanos - lastNanos)));
      lastNanos = nowNanos;
    }
    requests = requests + 1;
  }

  /** Requests so far; any thread. */
  public long requests() {
    return requests;
  }

  /** Times between equal questions in nanoseconds; once the server is closed. */
  public Histogram nanos() {
    return nanos;
  }
}
