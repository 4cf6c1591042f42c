package bufferstop.feeder;

import static bufferstop.spi.Parameter.bool;
import static bufferstop.spi.Parameter.choice;
import static bufferstop.spi.Parameter.integer;
import static bufferstop.spi.Parameter.item;
import static bufferstop.spi.Parameter.number;
import static bufferstop.spi.Parameter.text;

import bufferstop.spi.Parameter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** The parameters of a protection relay; settings are those of its secondary side. */
final class RelaySchema {
  private static final double SLOW = 1000;

  private RelaySchema() {}

  static List<Parameter> relay() {
    return List.of(
        text("breaker", "Breaker it trips; its current transformers stand beside it"),
        text("backup", "Breaker it trips when its own fails").orElse(""),
        choice(
                "measures",
                List.of("rms", "fundamental", "ideal"),
                "Filter of the currents; ideal: at once, without offset")
            .orElse("rms"),
        number("output_time", "s", 0, 1, "Of its trip contact").orElse("0.008"),
        item("ct", ct(), "Current transformers"),
        item("vt", vt(), "Voltage transformers").orElse(""),
        item("time_overcurrent", time(), "51").orElse(""),
        item("earth_time_overcurrent", time(), "51N").orElse(""),
        item("instantaneous", instantaneous(), "50").orElse(""),
        item("earth_instantaneous", instantaneous(), "50N").orElse(""),
        item("undervoltage", level("V", "1.05"), "27; blocks reclosing while picked up").orElse(""),
        item("overvoltage", level("V", "0.95"), "59").orElse(""),
        item("underfrequency", level("Hz", "1.002"), "81, low").orElse(""),
        item("overfrequency", level("Hz", "0.998"), "81, high").orElse(""),
        item("breaker_failure", failure(), "50BF").orElse(""),
        choice(
                "lockout_relay",
                List.of("none", "breaker_failure", "every_trip"),
                "86: what latches it; it blocks closing until reset")
            .orElse("breaker_failure"),
        number("trip_circuit_delay", "s", 0, SLOW, "74TC: alarm after; 0: not watched")
            .orElse("0.4"),
        item("reclosing", reclosing(), "79").orElse(""));
  }

  private static List<Parameter> ct() {
    return List.of(
        number("primary", "A", 0.01, 1e5, "Rated primary current"),
        number("secondary", "A", 0.01, 100, "Rated secondary current"),
        choice("polarity", List.of("normal", "reversed"), "How all three are connected")
            .orElse("normal"),
        number("accuracy_limit", "", 0, 1000, "Multiple of rated it carries; 0: never saturates")
            .orElse("0"));
  }

  private static List<Parameter> vt() {
    return List.of(
        number("primary", "V", 0.01, 1e6, "Rated primary voltage, line to line"),
        number("secondary", "V", 0.01, 1e5, "Rated secondary voltage, line to line"),
        choice("side", List.of("bus", "line"), "Of the breaker").orElse("bus"));
  }

  private static List<Parameter> time() {
    return List.of(
        number("pick_up", "A", 1e-3, 1e4, "Secondary current"),
        choice("curve", curves(), "Inverse-time curve, or a fixed time"),
        number("multiplier", "", 0.01, 20, "Time multiplier or time dial").orElse("1"),
        number("delay", "s", 0, SLOW, "definite_time: fixed time").orElse("1"),
        number("limit", "", 0, 100, "Multiple from which the time stays; 0: none").orElse("20"),
        number("least_time", "s", 0, 10, "Never faster").orElse("0.03"),
        number("drop_out", "", 0.5, 0.999, "Share of the pick-up").orElse("0.95"),
        choice("reset", List.of("instantaneous", "definite", "dependent"), "After drop-out")
            .orElse("instantaneous"),
        number("reset_time", "s", 0, SLOW, "definite: hold; dependent: where the curve has none")
            .orElse("0"));
  }

  private static List<String> curves() {
    return Stream.concat(
            Stream.of(Curve.values()).map(c -> c.name().toLowerCase(Locale.ROOT)),
            Stream.of("definite_time"))
        .toList();
  }

  private static List<Parameter> instantaneous() {
    return List.of(
        number("pick_up", "A", 1e-3, 1e4, "Secondary current"),
        number("delay", "s", 0, SLOW, "Above it without a break").orElse("0.01"),
        number("drop_out", "", 0.5, 0.999, "Share of the pick-up").orElse("0.95"));
  }

  private static List<Parameter> level(String unit, String dropOut) {
    return List.of(
        number("pick_up", unit, 0, 1e4, "Secondary, volts phase to neutral"),
        number("delay", "s", 0, SLOW, "Beyond it without a break"),
        number("drop_out", "", 0.5, 1.5, "Share of the pick-up").orElse(dropOut),
        bool("trips", "FALSE: it only tells").orElse("TRUE"));
  }

  private static List<Parameter> failure() {
    return List.of(
        number("delay", "s", 0, 10, "Current after the trip").orElse("0.2"),
        number("pick_up", "A", 1e-3, 1e4, "Secondary current").orElse("0.1"));
  }

  private static List<Parameter> reclosing() {
    return List.of(
        integer("shots", 0, 4, "Attempts").orElse("3"),
        number("dead_time_1", "s", 0, SLOW, "Breaker open to close command").orElse("0.333"),
        number("dead_time_2", "s", 0, SLOW, "Likewise, second attempt").orElse("15"),
        number("dead_time_3", "s", 0, SLOW, "Likewise, third attempt").orElse("45"),
        number("dead_time_4", "s", 0, SLOW, "Likewise, fourth attempt").orElse("45"),
        number("reclaim_time", "s", 0, SLOW, "Without a trip until it counts from 0").orElse("30"),
        integer("fast_trips", 0, 5, "Trips in which instantaneous elements act").orElse("1"),
        number("wait_limit", "s", 0, 1e4, "For a dead source, then lockout").orElse("300"),
        number("manual_inhibit", "s", 0, SLOW, "No reclosing after a close by hand").orElse("25"),
        bool("lock_out_on_instantaneous", "A trip by 50 in the reclaim time locks out")
            .orElse("FALSE"));
  }
}
