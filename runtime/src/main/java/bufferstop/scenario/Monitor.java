package bufferstop.scenario;

/** Judges one expectation online: sees every scan once, in order, and keeps a bounded memory. */
interface Monitor {

  /** Takes the image after the scan at {@code nowMicros}. */
  void observe(long[] cells, long nowMicros);

  /** Whether it is decided already that the expectation is not met. */
  boolean hasFailed();

  /** The result when no scan follows the one at {@code endMicros}. */
  ExpectationResult finish(long endMicros);

  /** An expectation that cannot be judged at all. */
  static Monitor unobservable(String text, String reason) {
    return new Monitor() {
      @Override
      public void observe(long[] cells, long nowMicros) {
        // nothing of it can be seen
      }

      @Override
      public boolean hasFailed() {
        return false;
      }

      @Override
      public ExpectationResult finish(long endMicros) {
        return ExpectationResult.open(text, reason);
      }
    };
  }
}
