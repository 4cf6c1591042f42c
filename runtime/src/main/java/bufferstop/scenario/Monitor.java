package bufferstop.scenario;

import java.util.List;

/** Judges one expectation online: sees every scan once, in order, and keeps a bounded memory. */
interface Monitor {

  /** Takes the image after the scan at {@code nowMicros}. */
  void observe(long[] cells, long nowMicros);

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
      public ExpectationResult finish(long endMicros) {
        return new ExpectationResult(text, Verdict.INCONCLUSIVE, null, "", -1, reason, List.of());
      }
    };
  }
}
