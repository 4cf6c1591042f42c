package bufferstop.engine;

/** Virtual time: every scan is due at once, and none is missed but on request. */
public final class VirtualClock implements Clock {
  private long skipped;

  /** Lets the next scan come so many periods late. */
  public void skip(long periods) {
    skipped += periods;
  }

  /** Periods that the next scan will come late. */
  public long skipped() {
    return skipped;
  }

  @Override
  public long awaitNext() {
    long missed = skipped;
    skipped = 0;
    return missed;
  }

  @Override
  public long performed() {
    return 0;
  }
}
