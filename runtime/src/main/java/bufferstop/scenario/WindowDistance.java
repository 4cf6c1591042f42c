package bufferstop.scenario;

/**
 * The distance in one unit of G(p → F[a,b] q) or G(p → G[a,b] q), online: from each sample of p the
 * extreme of q over the window that follows it, the least of all. Samples whose window reaches past
 * the end of the trace leave the result open between two bounds. Sources: Donzé and Maler 2010
 * [from memory, not re-read]; bounds in place of what is not seen: Deshmukh et al. 2017 [abstract
 * re-read].
 */
final class WindowDistance {
  private final boolean eventually;
  private final long afterMicros;
  private final long withinMicros;
  private final SlidingExtreme answers;
  private final Times waiting = new Times(); // samples of p whose window is still open
  private final Times premises = new Times(); // distance of NOT p at them, bits
  private double least = Double.POSITIVE_INFINITY;
  private long leastAt = -1;

  /**
   * @param eventually F in place of the inner G
   */
  WindowDistance(boolean eventually, long afterMicros, long withinMicros) {
    this.eventually = eventually;
    this.afterMicros = afterMicros;
    this.withinMicros = withinMicros;
    answers = new SlidingExtreme(eventually);
  }

  /**
   * Takes one sample.
   *
   * @param premise distance of p
   * @param answer distance of q
   */
  void observe(long nowMicros, double premise, double answer) {
    close(nowMicros);
    answers.add(nowMicros, answer);
    if (premise > Double.NEGATIVE_INFINITY) { // otherwise it asks for nothing
      waiting.add(nowMicros);
      premises.add(Double.doubleToLongBits(-premise));
    } else if (waiting.isEmpty()) {
      answers.from(nowMicros + afterMicros); // nobody will ask for earlier ones
    }
    close(nowMicros + 1);
  }

  /** Settles the samples whose window ended before a moment. */
  private void close(long beforeMicros) {
    while (!waiting.isEmpty() && waiting.first() + withinMicros < beforeMicros) {
      long at = waiting.removeFirst();
      double value = Double.longBitsToDouble(premises.removeFirst());
      settle(at, Math.max(value, answers.from(at + afterMicros)));
    }
  }

  private void settle(long at, double value) {
    if (value < least) {
      least = value;
      leastAt = at;
    }
  }

  /**
   * The bound that a verdict leaves: the lower one of a trace that is true, the upper one of one
   * that is false. Nothing can be observed after it.
   */
  void finish(boolean passed) {
    while (!waiting.isEmpty()) {
      long at = waiting.removeFirst();
      double premise = Double.longBitsToDouble(premises.removeFirst());
      double seen = answers.from(at + afterMicros);
      // F can only rise by what is not seen, G only fall
      double low = eventually ? Math.max(premise, seen) : premise;
      double high = eventually ? Double.POSITIVE_INFINITY : Math.max(premise, seen);
      settle(at, passed ? low : high);
    }
  }

  double least() {
    return least;
  }

  long leastAt() {
    return leastAt;
  }
}
