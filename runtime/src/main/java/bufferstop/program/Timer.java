package bufferstop.program;

/** What the three standard timers have in common. */
interface Timer {

  /**
   * Evaluates the timer once in a scan.
   *
   * @param ptMicros preset; negative counts as 0
   * @param nowMicros scan time, never falling
   * @return Q
   */
  boolean step(boolean in, long ptMicros, long nowMicros);

  /** ET after the last evaluation, microseconds. */
  long etMicros();
}
