package bufferstop.program;

/** Off-delay timer, TOF. Source: IEC 61131-3:2003, Table 37 [from memory, not re-read]. */
final class OffDelay implements Timer {
  private boolean q;
  private boolean falling;
  private long startMicros;
  private long etMicros;

  /** Q: follows IN upward at once, downward PT after it fell. A negative PT counts as 0. */
  @Override
  public boolean step(boolean in, long ptMicros, long nowMicros) {
    if (in) {
      q = true;
      falling = false;
      etMicros = 0;
    } else if (q) {
      if (!falling) {
        falling = true;
        startMicros = nowMicros;
      }
      long pt = Math.max(0, ptMicros);
      long elapsed = nowMicros - startMicros;
      etMicros = Math.min(elapsed, pt);
      q = elapsed < pt;
    }
    return q;
  }

  @Override
  public long etMicros() {
    return etMicros;
  }
}
