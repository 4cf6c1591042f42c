package bufferstop.bench;

/** Settings of configs/brickworks-feeder, as plain block mappings. */
final class FeederSettings {
  static final String WORKS =
      """
      volts: 400
      frequency: 50
      source_node: works
      generator:
        rating: 15000
        inertia: 1.5
        droop: 0.03
        governor_time: 0.2
        overfrequency: 54
        overfrequency_delay: 0.1
        undervoltage: 0.7
        undervoltage_delay: 6
        synchronous_reactance: 1.2
        overcurrent: 2
        overcurrent_delay: 8
        start_time: 4
      lines:
        press_line:
          from: works
          to: press
          length: 20
          resistance: 1.15
          reactance: 0.08
        yard_line:
          from: works
          to: yard
          length: 250
          resistance: 1.15
          reactance: 0.1
          conductor_area: 16
          continuous_current: 60
        depot_line:
          from: yard
          to: depot
          length: 30
          resistance: 1.83
          reactance: 0.08
        cottages_line:
          from: yard
          to: cottages
          length: 60
          resistance: 1.83
          reactance: 0.08
      loads:
        press:
          node: press
          kind: motor
          power: 1500
          power_factor: 0.8
          start_current: 5
          restarts: FALSE
        cottages:
          node: cottages
          kind: power
          power: 4000
          power_factor: 0.97
          pick_up: 1.5
          pick_up_build: 300
          pick_up_decay: 120
        tramway:
          node: depot
          kind: rectifier
          phases: ab
          power: 2400
          power_factor: 0.97
          dc_volts: 12
          dc_resistance: 0.2
          multiplier: 400
          spectrum:
            h3:
              order: 3
              share: 0.25
              angle: 180
            h5:
              order: 5
              share: 0.12
              angle: 0
            h7:
              order: 7
              share: 0.06
              angle: 180
      breakers:
        yard:
          line: yard_line
          opening_time: 0.03
      relays:
        r_yard:
          breaker: yard
          ct:
            primary: 50
            secondary: 5
            accuracy_limit: 20
          vt:
            primary: 400
            secondary: 100
          instantaneous:
            pick_up: 4.5
            delay: 0.02
          time_overcurrent:
            pick_up: 3
            curve: iec_very_inverse
            multiplier: 0.2
          earth_time_overcurrent:
            pick_up: 1
            curve: definite_time
            delay: 0.5
          undervoltage:
            pick_up: 40
            delay: 1
            trips: FALSE
          breaker_failure:
            delay: 0.2
            pick_up: 0.5
          reclosing:
            shots: 2
            dead_time_1: 0.5
            dead_time_2: 10
            reclaim_time: 20
            fast_trips: 1
      fuses:
        f_press:
          line: press_line
          rating: 10
        f_cottages:
          line: cottages_line
          rating: 10
      coils:
        track_monitor:
          node: depot
          phase: a
          let_go: 0.6
          let_go_time: 0.02
      meters:
        tramway:
          load: tramway
        cottages:
          load: cottages
        yard:
          line: yard_line
      grading_interval: 0.3
      faults:
        branch:
          line: yard_line
          place: 0.6
          joins: bc
          behaviour: arc
        pole_down:
          line: yard_line
          place: 0.6
          joins: abc
          behaviour: permanent
        press_flash:
          line: press_line
          place: 1
          joins: ab
          resistance: 0.5
          behaviour: self_clearing
          lasts: 0.06
      """;

  private FeederSettings() {}
}
