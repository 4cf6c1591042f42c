package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * One load as its settings describe it; numbers are those of the whole load, split evenly over its
 * legs.
 *
 * @param phases the conductors it is on: a, b, c, ab, bc, ca or abc
 */
record LoadData(
    String name,
    String nodeName,
    Kind kind,
    String phases,
    double watts,
    double powerFactor,
    boolean leading,
    double pickUp,
    double pickUpBuildSeconds,
    double pickUpDecaySeconds,
    double startCurrent,
    double startPowerFactor,
    double inertiaSeconds,
    boolean restarts,
    double dcVolts,
    double dcOhms,
    double multiplier,
    List<Harmonic> spectrum,
    Settings at) {

  /** How its current depends on voltage and state. */
  enum Kind {
    IMPEDANCE,
    CURRENT,
    POWER,
    MOTOR,
    RECTIFIER
  }

  /** One harmonic of a rectifier, relative to its fundamental current. */
  record Harmonic(String name, int order, double share, double cosine, double sine) {}

  static LoadData read(String name, Settings s) {
    List<Harmonic> spectrum = new ArrayList<>();
    for (Map.Entry<String, Settings> each : s.named("spectrum").entrySet()) {
      double angle = StrictMath.toRadians(each.getValue().number("angle"));
      spectrum.add(
          new Harmonic(
              each.getKey(),
              (int) each.getValue().integer("order"),
              each.getValue().number("share"),
              StrictMath.cos(angle),
              StrictMath.sin(angle)));
    }
    return new LoadData(
        name,
        s.text("node"),
        Kind.valueOf(s.text("kind").toUpperCase(Locale.ROOT)),
        s.text("phases"),
        s.number("power"),
        s.number("power_factor"),
        s.bool("leading"),
        s.number("pick_up"),
        s.number("pick_up_build"),
        s.number("pick_up_decay"),
        s.number("start_current"),
        s.number("start_power_factor"),
        s.number("inertia"),
        s.bool("restarts"),
        s.number("dc_volts"),
        s.number("dc_resistance"),
        s.number("multiplier"),
        List.copyOf(spectrum),
        s);
  }

  int legs() {
    return phases.equals("abc") ? 3 : 1;
  }

  boolean betweenLines() {
    return phases.length() == 2;
  }

  /** Conductor (0 to 2) at the beginning of a leg. */
  int from(int leg) {
    return phases.charAt(leg) - 'a';
  }

  /** Conductor at the end of a leg, -1 for the return. */
  int to(int leg) {
    return betweenLines() ? phases.charAt(1) - 'a' : -1;
  }

  double vars() {
    double q = watts * Math.sqrt(1 - powerFactor * powerFactor) / powerFactor;
    return leading ? -q : q;
  }

  boolean hasDcPort() {
    return dcVolts > 0;
  }

  /** A rectifier's own power at this current as a share of the load's. */
  double shareOfDc(double dcAmperes) {
    return Math.abs(dcAmperes) * dcVolts * multiplier / watts;
  }

  int order(int harmonic) {
    return spectrum.get(harmonic).order();
  }

  double harmonicShare(int harmonic) {
    return spectrum.get(harmonic).share();
  }

  double cosine(int harmonic) {
    return spectrum.get(harmonic).cosine();
  }

  double sine(int harmonic) {
    return spectrum.get(harmonic).sine();
  }
}
