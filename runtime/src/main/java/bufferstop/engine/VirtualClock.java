package bufferstop.engine;

/** Virtual time: every scan is due at once and none is ever missed. */
public final class VirtualClock implements Clock {
  @Override
  public long awaitNext() {
    return 0;
  }

  @Override
  public long performed() {
    return 0;
  }
}
