package bufferstop.feeder;

/** Settings of networks that several tests use. */
final class Networks {
  private Networks() {}

  /**
   * The low-voltage feeder of the reference, section 4.4 [computed there]: grid 100 MVA with c =
   * 1.1 in its impedance, transformer 100 kVA, 4 %, resistive part 1.75 %, line 300 m at 0.32 +
   * j0.075 ohm/km with an equal return. The reference refers the grid's impedance to 400 V.
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

  /** A village: a part of every kind, behind a grid. */
  static final String VILLAGE =
      """
      volts: 10000
      grid:
        short_circuit_power: 50000000
        r_over_x: 0.2
      transformers:
        t1:
          from: source
          to: busbar
          rating: 100000
          primary: 10000
          secondary: 400
      lines:
        l1:
          from: busbar
          to: green
          length: 300
          resistance: 0.32
          reactance: 0.075
          conductor_area: 50
          continuous_current: 120
        l2:
          from: green
          to: mill
          length: 100
          resistance: 0.5
          reactance: 0.08
        l3:
          from: green
          to: depot
          length: 50
          resistance: 0.5
          reactance: 0.08
      loads:
        houses:
          node: green
          kind: power
          power: 12000
          power_factor: 0.95
          pick_up: 2
          pick_up_build: 2
          pick_up_decay: 1
        lamps:
          node: mill
          kind: impedance
          phases: a
          power: 800
        pump:
          node: mill
          kind: motor
          power: 5000
          power_factor: 0.85
        tram:
          node: depot
          kind: rectifier
          phases: b
          power: 240
          power_factor: 0.95
          dc_volts: 12
          multiplier: 10
          spectrum:
            h3:
              order: 3
              share: 0.3
              angle: 180
            h5:
              order: 5
              share: 0.15
        office:
          node: depot
          kind: current
          phases: ca
          power: 1000
      faults:
        tree:
          line: l1
          place: 0.7
          joins: an
          behaviour: drawn
        branch:
          line: l2
          joins: bc
          behaviour: self_clearing
          lasts: 0.4
        worn:
          line: l3
          joins: cn
          resistance: 2
      breakers:
        b1:
          line: l1
          spring_time: 1
      relays:
        r1:
          breaker: b1
          ct:
            primary: 150
            secondary: 5
            accuracy_limit: 20
          vt:
            primary: 400
            secondary: 100
          instantaneous:
            pick_up: 30
          time_overcurrent:
            pick_up: 6
            multiplier: 0.2
            curve: ieee_very_inverse
            reset: dependent
          earth_time_overcurrent:
            pick_up: 1
            curve: iec_standard_inverse
            multiplier: 0.1
          undervoltage:
            pick_up: 40
            delay: 1
            trips: FALSE
          overfrequency:
            pick_up: 52
            delay: 0.5
          breaker_failure:
            delay: 0.2
          reclosing:
            shots: 2
            dead_time_1: 0.4
            dead_time_2: 1.5
            reclaim_time: 3
      fuses:
        f1:
          line: l3
          rating: 16
      mcbs:
        m1:
          line: l2
          rating: 32
      coils:
        k1:
          node: depot
          phase: b
      meters:
        all:
          line: l1
        tramway:
          load: tram
          accuracy: 1
      grading_interval: 0
      """;
}
