package bufferstop.feeder;

/** Settings of networks that several tests use. */
final class Networks {
  private Networks() {}

  /**
   * The low-voltage feeder of the reference, section 4.4 [computed there]: grid 100 MVA with c = 1.1
   * in its impedance, transformer 100 kVA, 4 %, resistive part 1.75 %, line 300 m at 0.32 + j0.075
   * ohm/km with an equal return. The reference refers the grid's impedance to 400 V.
   */
  static final String LOW_VOLTAGE =
      """
      volts: 10000
      grid:
        short_circuit_power: 100000000
        r_over_x: 0.1
        voltage_factor: 1.1
      transformers:
        t1:
          from: source
          to: busbar
          rating: 100000
          primary: 10000
          secondary: 400
          impedance: 0.04
          resistance: 0.0175
          primary_winding: star
      lines:
        l1:
          from: busbar
          to: end
          length: 300
          resistance: 0.32
          reactance: 0.075
      """;

  /** A stiff 400 V source, a breaker and a relay that measures at once, a line of no impedance. */
  static String relay(String functions) {
    return """
        volts: 400
        grid:
          short_circuit_power: 1000000000000
        lines:
          l1:
            from: source
            to: end
            length: 1
            resistance: 0
        breakers:
          b1:
            line: l1
        relays:
          r1:
            breaker: b1
            measures: ideal
            output_time: 0
            ct:
              primary: 200
              secondary: 1
        """
        + functions.indent(4);
  }
}
