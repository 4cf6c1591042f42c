package bufferstop.railway;

import static bufferstop.railway.RailwaySchema.SMALL;
import static bufferstop.railway.RailwaySchema.position;
import static bufferstop.railway.RailwaySchema.segmentOf;
import static bufferstop.spi.Parameter.bool;
import static bufferstop.spi.Parameter.choice;
import static bufferstop.spi.Parameter.item;
import static bufferstop.spi.Parameter.named;
import static bufferstop.spi.Parameter.number;

import bufferstop.spi.Parameter;
import java.util.ArrayList;
import java.util.List;

/** The parameters of sensors, conditioners and relays. */
final class SensorSchema {
  static final List<Parameter> PARAMETERS =
      List.of(
          named("beams", beam(), "Light barriers across the track by name"),
          named("reeds", reed(), "Reed switches in the track by name"),
          named("blocks", block(), "Blocks watched by what their axles conduct, by name"),
          named("counters", counter(), "Axle counting heads by name"),
          named("scales", scale(), "Weighing places by name"),
          named("relays", relay(), "Relays between an output and what it works, by name"));

  private SensorSchema() {}

  private static List<Parameter> beam() {
    List<Parameter> own =
        List.of(
            position("Middle of the beam"),
            segmentOf(),
            choice(
                    "kind",
                    List.of("through", "reflective"),
                    "through: the body covers it; reflective: the body throws it back")
                .orElse("through"),
            number("width", "m", 1e-4, 10, "Width along the line").orElse("0.005"),
            number("p_on", "", 0, 1, "Covered share at which it is blocked").orElse("0.6"),
            number("p_off", "", 0, 1, "Covered share down to which it stays blocked").orElse("0.4"),
            choice("output", List.of("dark", "light"), "TRUE while blocked (dark) or clear (light)")
                .orElse("dark"),
            bool("gaps", "The controller must see the gaps between vehicles too").orElse("FALSE"));
    return with(own, "0.0005");
  }

  private static List<Parameter> reed() {
    List<Parameter> own =
        List.of(
            position("Middle of the switch"),
            segmentOf(),
            number("operate", "m", SMALL, 10, "Distance of the magnet at which it closes"),
            number("release", "m", SMALL, 10, "Distance of the magnet at which it opens"),
            number("closest", "m", 0, 10, "Closest distance of a passing magnet").orElse("0"));
    return with(own, "0");
  }

  private static List<Parameter> block() {
    List<Parameter> own =
        List.of(
            choice(
                    "kind",
                    List.of("current", "relay"),
                    "current: TRUE while axles draw it; relay: TRUE while no axle shunts it")
                .orElse("current"),
            number("threshold", "A", 0, 100, "Current above which it is occupied").orElse("0.0002"),
            number("bias", "V", 0, 1000, "Voltage of its own; 0: that of the track").orElse("12"),
            number("shunt", "ohm", 0, 1e6, "Resistance of axles that sheds the relay")
                .orElse("0.06"));
    return with(own, "0");
  }

  private static List<Parameter> counter() {
    return List.of(
        position("Middle of the head"),
        segmentOf(),
        number("pulse", "s", 0, 10, "Length of its pulse for each axle").orElse("0.01"));
  }

  private static List<Parameter> scale() {
    List<Parameter> own =
        List.of(
            number("from", "m", -RailwaySchema.FAR, RailwaySchema.FAR, "Low end of the platform"),
            number("to", "m", -RailwaySchema.FAR, RailwaySchema.FAR, "High end of the platform"),
            segmentOf(),
            number("on", "kg", 0, 1e9, "Mass above which its contact closes"),
            number("off", "kg", 0, 1e9, "Mass below which it opens"),
            number("time_constant", "s", 0, 100, "Of the load cell's low-pass").orElse("0"));
    return with(own, "0");
  }

  private static List<Parameter> relay() {
    return List.of(
        number("operate", "s", 0, 10, "From coil to contact, closing"),
        number("release", "s", 0, 10, "From coil to contact, opening"),
        number("bounce", "s", 0, 1, "How long its contact bounces after closing").orElse("0"));
  }

  private static List<Parameter> with(List<Parameter> own, String delay) {
    List<Parameter> all = new ArrayList<>(own);
    all.add(
        number("on_delay", "s", 0, 60, "How long before it answers to something").orElse(delay));
    all.add(number("off_delay", "s", 0, 60, "How long before it answers to nothing").orElse(delay));
    all.add(
        number("jitter", "s", 0, 10, "Up to so much more delay, by chance, each time").orElse("0"));
    all.add(
        number("tolerance", "m", 0, 10, "Stands beside its position by up to that, by the seed")
            .orElse("0"));
    all.add(item("conditioner", conditioner(), "Between sensor and input").orElse(""));
    all.add(item("terminal", terminal(), "Digital input it is led to").orElse(""));
    return List.copyOf(all);
  }

  private static List<Parameter> conditioner() {
    return List.of(
        choice("supply", List.of("ac", "dc"), "What the sensor switches").orElse("ac"),
        number("volts", "V", SMALL, 1000, "Of that supply, r.m.s."),
        number("frequency", "Hz", 1, 1000, "Of that supply").orElse("50"),
        number("diode_drop", "V", 0, 10, "Lost in the rectifier").orElse("1.4"),
        number("source_resistance", "ohm", SMALL, 1e6, "Between rectifier and capacitor")
            .orElse("100"),
        number("capacitance", "F", 0, 1, "Smoothing; 0: none"),
        number("coil_resistance", "ohm", SMALL, 1e6, "Of the relay's coil"),
        number("rated_volts", "V", SMALL, 1000, "Of the relay's coil"),
        number("pick_up", "", 0, 1, "Share of rated voltage at which it operates").orElse("0.8"),
        number("drop_out", "", 0, 1, "Share of rated voltage at which it releases").orElse("0.5"),
        number("operate", "s", 0, 10, "From pick-up to contact").orElse("0.01"),
        number("release", "s", 0, 10, "From drop-out to contact").orElse("0.01"),
        number("bounce", "s", 0, 1, "How long its contact bounces after closing").orElse("0.002"));
  }

  private static List<Parameter> terminal() {
    return List.of(
        choice("type", List.of("type_1", "type_3"), "Thresholds of IEC 61131-2").orElse("type_3"),
        number("volts", "V", 0, 100, "Field supply").orElse("24"),
        number("time_constant", "s", 0, 1, "Of its RC filter").orElse("0.005"));
  }
}
