package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** One protection function of a relay with its setting. */
final class Element {

  /** What it watches. Numbers are those of IEEE C37.2, made unique by 1000 for a second use. */
  enum Function {
    INSTANTANEOUS(50, "instantaneous", "instantaneous overcurrent (50)"),
    TIME_OVERCURRENT(51, "time_overcurrent", "time overcurrent (51)"),
    EARTH_INSTANTANEOUS(1050, "earth_instantaneous", "instantaneous earth fault (50N)"),
    EARTH_TIME_OVERCURRENT(1051, "earth_time_overcurrent", "time earth fault (51N)"),
    UNDERVOLTAGE(27, "undervoltage", "undervoltage (27)"),
    OVERVOLTAGE(59, "overvoltage", "overvoltage (59)"),
    UNDERFREQUENCY(81, "underfrequency", "underfrequency (81U)"),
    OVERFREQUENCY(1081, "overfrequency", "overfrequency (81O)");

    final int number;
    final String key;
    final String text;

    Function(int number, String key, String text) {
      this.number = number;
      this.key = key;
      this.text = text;
    }

    boolean isCurrent() {
      return ordinal() <= EARTH_TIME_OVERCURRENT.ordinal();
    }

    boolean watches(ProtectiveDevice.Current current) {
      return switch (this) {
        case INSTANTANEOUS, TIME_OVERCURRENT -> current == ProtectiveDevice.Current.PHASE;
        case EARTH_INSTANTANEOUS, EARTH_TIME_OVERCURRENT ->
            current == ProtectiveDevice.Current.EARTH;
        default -> false;
      };
    }

    boolean isInstantaneous() {
      return this == INSTANTANEOUS || this == EARTH_INSTANTANEOUS;
    }

    String unit() {
      return isCurrent() ? "A" : number == 27 || number == 59 ? "V" : "Hz";
    }

    double of(Measurement seen) {
      return switch (this) {
        case INSTANTANEOUS, TIME_OVERCURRENT -> seen.most();
        case EARTH_INSTANTANEOUS, EARTH_TIME_OVERCURRENT -> seen.current(3);
        case UNDERVOLTAGE -> seen.lowestVolts();
        case OVERVOLTAGE -> seen.highestVolts();
        default -> seen.hertz();
      };
    }
  }

  final Function function;
  final boolean trips;
  final Settings at;
  private final double pickUp;
  private final InverseTime.Setting curve; // null for a fixed time
  private final InverseTime inverse;
  private final DefiniteTime definite;

  Element(Function function, Settings s) {
    this.function = function;
    at = s;
    trips = function.isCurrent() || s.bool("trips");
    pickUp = s.number("pick_up");
    boolean timed =
        function == Function.TIME_OVERCURRENT || function == Function.EARTH_TIME_OVERCURRENT;
    curve = timed && !s.text("curve").equals("definite_time") ? curve(s) : null;
    inverse = curve == null ? null : new InverseTime(curve);
    definite =
        curve == null ? new DefiniteTime(pickUp, s.number("drop_out"), s.number("delay")) : null;
  }

  private static InverseTime.Setting curve(Settings s) {
    return new InverseTime.Setting(
        Curve.of(s.text("curve")),
        s.number("multiplier"),
        s.number("limit"),
        s.number("least_time"),
        s.number("drop_out"),
        InverseTime.Reset.valueOf(s.text("reset").toUpperCase(java.util.Locale.ROOT)),
        s.number("reset_time"));
  }

  /** One step; returns whether it operates. */
  boolean step(Measurement seen, long micros) {
    double quantity = function.of(seen);
    if (!function.isCurrent() && !seen.hasVolts() || function.unit().equals("Hz") && !seen.live()) {
      definite.clear();
      return false;
    }
    return inverse != null
        ? inverse.step(quantity / pickUp, micros)
        : definite.step(quantity, micros);
  }

  boolean started() {
    return inverse != null ? inverse.started() : definite.started();
  }

  /** Nothing in it moves while the quantity stays. */
  boolean idle() {
    return inverse != null ? inverse.idle() : !definite.started() || !trips;
  }

  void operated() {
    if (inverse != null) {
      inverse.operated();
    }
  }

  double pickUp() {
    return pickUp;
  }

  /** Operating time at a constant quantity. */
  double seconds(double quantity) {
    if (inverse != null) {
      return curve.seconds(quantity / pickUp);
    }
    return quantity > pickUp ? definite.delaySeconds() : Double.POSITIVE_INFINITY;
  }

  void save(DataOutput to) throws IOException {
    if (inverse != null) {
      inverse.save(to);
    } else {
      definite.save(to);
    }
  }

  void restore(DataInput from) throws IOException {
    if (inverse != null) {
      inverse.restore(from);
    } else {
      definite.restore(from);
    }
  }
}
