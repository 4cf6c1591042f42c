package bufferstop.mixer;

/** A two-wire transmitter. Limits: NAMUR Recommendation NE 43 [seen second-hand]. */
final class Transmitter {
  private Transmitter() {}

  /**
   * Its current; saturates at 3.8 and 20.5 mA.
   *
   * @param share of its range
   */
  static double amperes(double share) {
    return Math.max(0.0038, Math.min(0.0205, 0.004 + 0.016 * share));
  }
}
