package bufferstop.scenario;

/** Keeps the extreme of a distance with its moment and unit. */
final class Closest {
  private final boolean greatest;
  private double extreme;
  private long atMicros = -1;
  private String unit = "";

  /**
   * @param greatest keeps the greatest distance instead of the least
   */
  Closest(boolean greatest) {
    this.greatest = greatest;
  }

  /**
   * @param holds the verdict on this image; a distance on the other side of it counts as 0, as when
   *     peaks of one scan that make a hazard together came in different plant steps
   */
  void observe(Robustness robustness, long[] cells, boolean holds, long nowMicros) {
    double distance = robustness.distance(cells);
    double next = holds ? Math.max(distance, 0.0) : Math.min(distance, 0.0);
    boolean better = greatest ? next > extreme : next < extreme;
    if (!Double.isNaN(next) && (atMicros < 0 || better)) {
      extreme = next;
      atMicros = nowMicros;
      unit = robustness.unit(cells);
    }
  }

  /** The distance, never -0.0; null when it is infinite or nothing was seen. */
  Double margin() {
    return atMicros < 0 || Double.isInfinite(extreme) ? null : Double.valueOf(extreme + 0.0);
  }

  long atMicros() {
    return atMicros;
  }

  String unit() {
    return unit;
  }
}
