package bufferstop.railway;

/** Settings with turnouts, several trains and full-size drives, for tests to add to. */
final class Yards {
  /**
   * One track that parts into two and meets again, metres from end to end: west 0 to 100, main and
   * loop 100 to 200, east 200 to 300.
   */
  static final String LOOP =
      """
      segments:
        west: {length: 100, block: west}
        main: {from: 100, length: 100, block: main}
        loop: {from: 100, length: 100, block: loop}
        east: {from: 200, length: 100, block: east}
      turnouts:
        wp: {toe: west.high, normal: main.low, reverse: loop.low, move_time: 2}
        ep: {toe: east.low, normal: main.high, reverse: loop.high, move_time: 2}
      buffers:
        we: {at: west.low, force: 1000, travel: 1}
        ee: {at: east.high, force: 1000, travel: 1}
      blocks:
        west: {bias: 12}
        main: {bias: 12}
        loop: {bias: 12}
        east: {bias: 12}
      coupling: {gap: 1, max_speed: 1}
      """;

  private Yards() {}

  /** A frictionless locomotive of 10 m and 10 t with a start speed and a handle. */
  static String loco(String name, String segment, double start, double speed) {
    return """
      %s:
        length: 10
        mass: 10000
        rolling_resistance: 0
        segment: %s
        start: %s
        start_speed: %s
        drive: {effort: 20000, power: 1e6, rotating_share: 1e-6}
    """
        .formatted(name, segment, start, speed);
  }
}
