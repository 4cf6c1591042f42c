package bufferstop.program;

/** Pulse timer, TP. Source: IEC 61131-3:2003, Table 37 [from memory, not re-read]. */
final class PulseTimer implements Timer {
  private boolean last;
  private boolean running;
  private long startMicros;
  private long etMicros;

  /** Q: a pulse of length PT from a rising edge of IN that nothing shortens or restarts. */
  @Override
  public boolean step(boolean in, long ptMicros, long nowMicros) {
    long pt = Math.max(0, ptMicros);
    boolean edge = in && !last;
    last = in;
    if (running && nowMicros - startMicros >= pt) {
      running = false;
      etMicros = pt;
    }
    if (!running && edge && pt > 0) {
      running = true;
      startMicros = nowMicros;
    }
    if (running) {
      etMicros = nowMicros - startMicros;
    } else if (!in) {
      etMicros = 0;
    }
    return running;
  }

  @Override
  public long etMicros() {
    return etMicros;
  }
}
