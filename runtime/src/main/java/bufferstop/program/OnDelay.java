package bufferstop.program;

/** On-delay timer, TON. Source: IEC 61131-3:2003, Table 37 [from memory, not re-read]. */
final class OnDelay implements Timer {
  private boolean timing;
  private boolean expired; // kept so that a longer PT after expiry does not drop Q
  private long startMicros;
  private long etMicros;

  /** Q: TRUE in the first scan at or after start + PT, never before. A negative PT counts as 0. */
  @Override
  public boolean step(boolean in, long ptMicros, long nowMicros) {
    if (!in) {
      timing = false;
      expired = false;
      etMicros = 0;
      return false;
    }
    if (!timing) {
      timing = true;
      startMicros = nowMicros;
    }
    long pt = Math.max(0, ptMicros);
    long elapsed = nowMicros - startMicros;
    if (!expired) {
      expired = elapsed >= pt;
      etMicros = Math.min(elapsed, pt);
    }
    return expired;
  }

  @Override
  public long etMicros() {
    return etMicros;
  }
}
