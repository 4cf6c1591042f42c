package bufferstop.scenario;

/**
 * The extreme of a quantity over a window that slides over its samples: a queue of candidates from
 * which a new sample drops from the back all that it beats, and the front when it is too old; at
 * most three comparisons a sample whatever the window. Source: Lemire 2006 [abstract re-read,
 * method from memory].
 */
final class SlidingExtreme {
  private final boolean greatest;
  private final Times micros = new Times();
  private final Times values = new Times(); // bits of doubles

  /**
   * @param greatest the greatest instead of the least
   */
  SlidingExtreme(boolean greatest) {
    this.greatest = greatest;
  }

  void add(long atMicros, double value) {
    while (!values.isEmpty() && !beats(Double.longBitsToDouble(values.last()), value)) {
      micros.removeLast();
      values.removeLast();
    }
    micros.add(atMicros);
    values.add(Double.doubleToLongBits(value));
  }

  private boolean beats(double a, double b) {
    return greatest ? a > b : a < b;
  }

  /**
   * The extreme of the samples from a moment on; earlier ones are forgotten. Of no sample it is
   * minus infinity for the greatest, plus infinity for the least.
   */
  double from(long atMicros) {
    while (!micros.isEmpty() && micros.first() < atMicros) {
      micros.removeFirst();
      values.removeFirst();
    }
    double none = greatest ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
    return values.isEmpty() ? none : Double.longBitsToDouble(values.first());
  }
}
