package bufferstop.railway;

/** Settings for tests, as texts to which a test adds or in which it replaces what it needs. */
final class Lines {
  /**
   * The train of reference 3.5 (project choice): locomotive 0.35 kg and a wagon that makes it 0.95
   * kg, rolling resistance 0.2 N in all, on a line long enough for anything. Adhesion is set out of
   * reach, as the reference's figures have no slip.
   */
  static final String REFERENCE =
      """
      segments:
        line:
          from: -100
          length: 200
      feeds:
        feed:
          volts: 12
      buffers:
        pit_end:
          at: line.low
          force: 2
          travel: 0.008
        shed_end:
          at: line.high
          force: 2
          travel: 0.008
      coupling:
        gap: 0.01
      locomotives:
        loco:
          length: 0.18
          mass: 0.35
          rolling_resistance: 0.021467709747
          start: 0.16
          adhesion: 1000
          motor:
            resistance: 20
            constant: 0.0103132403
            gear: 14
            wheel_radius: 0.0055
            friction_torque: 6.18794419e-4
            rotor_inertia: 5e-7
      wagons:
        tub:
          length: 0.12
          tare: 0.6
          capacity: 0
          rolling_resistance: 0.021467709747
          start: 0
          coupled_at_start: TRUE
      """;

  /** The same with what else a line can have, and with slipping wheels. */
  static final String FULL =
      REFERENCE.replace("adhesion: 1000", "adhesion: 0.25").replace("capacity: 0", "capacity: 0.1")
          + """
          uncouplers:
            uncoupler:
              position: 0.065
              tolerance: 0.02
          hoppers:
            hopper:
              position: 0.0
              spout: 0.03
              stock: 0.15
              gate_time: 0.1
              flow: 0.02
          discharges:
            discharge:
              from: 0.3
              to: 0.5
              rate: 0.05
          beams:
            near:
              position: 0.4
            far:
              position: 0.9
              output: light
          reeds:
            middle:
              position: 0.6
              operate: 0.012
              release: 0.015
          """;

  private Lines() {}

  /** The reference line with a frictionless, free locomotive far off and these wagons instead. */
  static String wagons(String wagons) {
    String head = REFERENCE.substring(0, REFERENCE.indexOf("wagons:"));
    return head.replace("start: 0.16", "start: -90")
            .replace("friction_torque: 6.18794419e-4", "friction_torque: 0")
            .replace("rolling_resistance: 0.021467709747", "rolling_resistance: 0")
        + "wagons:\n"
        + wagons.indent(2);
  }

  /** One wagon without rolling resistance. */
  static String wagon(String name, double lengthMetres, double kg, double startMetres) {
    return """
    %s:
      length: %s
      tare: %s
      capacity: 1e6
      rolling_resistance: 0
      start: %s
    """
        .formatted(name, lengthMetres, kg, startMetres);
  }

  /** The reference line on track from one distance post to another. */
  static String between(String settings, double from, double to) {
    return settings
        .replace("from: -100", "from: " + from)
        .replace("length: 200", "length: " + (to - from));
  }
}
