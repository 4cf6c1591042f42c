package bufferstop.scenario;

/** Keeps the extreme of a distance with its moment and unit. */
final class Closest {
  private final boolean greatest;
  private double distance;
  private long atMicros = -1;
  private String unit = "";

  /**
   * @param greatest keeps the greatest distance instead of the least
   */
  Closest(boolean greatest) {
    this.greatest = greatest;
  }

  void observe(Robustness robustness, long[] cells, long nowMicros) {
    double next = robustness.distance(cells);
    boolean better = greatest ? next > distance : next < distance;
    if (!Double.isNaN(next) && (atMicros < 0 || better)) {
      distance = next;
      atMicros = nowMicros;
      unit = robustness.unit(cells);
    }
  }

  /** The distance, or null when it is infinite or nothing was seen. */
  Double margin() {
    return atMicros < 0 || Double.isInfinite(distance) ? null : Double.valueOf(distance);
  }

  long atMicros() {
    return atMicros;
  }

  String unit() {
    return unit;
  }
}
