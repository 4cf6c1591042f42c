package bufferstop.feeder;

import static bufferstop.spi.Parameter.bool;
import static bufferstop.spi.Parameter.choice;
import static bufferstop.spi.Parameter.integer;
import static bufferstop.spi.Parameter.item;
import static bufferstop.spi.Parameter.named;
import static bufferstop.spi.Parameter.number;
import static bufferstop.spi.Parameter.text;

import bufferstop.spi.Parameter;
import java.util.List;

/** The parameters of a feeder, as plain data; those of relays are in {@link RelaySchema}. */
final class FeederSchema {
  static final List<String> PHASES = List.of("a", "b", "c", "ab", "bc", "ca", "abc");
  private static final double MOST = 1e9;

  static final List<Parameter> PARAMETERS =
      List.of(
          number("frequency", "Hz", 16, 60, "Nominal frequency").orElse("50"),
          number("volts", "V", 1, 50_000, "Nominal voltage of the source, line to line"),
          text("source_node", "Name of the node the source feeds").orElse("source"),
          item("grid", grid(), "A grid feeds the network").orElse(""),
          item("generator", generator(), "A generating set feeds the network").orElse(""),
          named("transformers", transformer(), "Transformers by name"),
          named("lines", line(), "Lines by name"),
          named("loads", load(), "Loads by name"),
          named("faults", fault(), "Faults that can be put on lines, by name"),
          named("breakers", breaker(), "Circuit-breakers by name"),
          named("relays", RelaySchema.relay(), "Protection relays by name"),
          named("fuses", fuse(), "Sets of fuses by name"),
          named("mcbs", mcb(), "Miniature circuit-breakers by name"),
          named("coils", coil(), "Relay coils that hang on the network, by name"),
          named("meters", meter(), "Meters by name"),
          number("grading_interval", "s", 0, 10, "Least time between devices in series")
              .orElse("0.3"));

  private FeederSchema() {}

  private static List<Parameter> grid() {
    return List.of(
        number("short_circuit_power", "VA", 1, 1e12, "Three-phase, at its node"),
        number("r_over_x", "", 0, 100, "Resistance over reactance").orElse("0.1"),
        number("voltage_factor", "", 0.9, 1.2, "Factor c within the short-circuit power")
            .orElse("1"));
  }

  private static List<Parameter> generator() {
    return List.of(
        number("rating", "VA", 1, MOST, "Rated power"),
        number("inertia", "s", 0.05, 20, "H: energy of rotation over rating").orElse("1"),
        number("droop", "", 0.001, 0.2, "Fall of frequency from no load to rating").orElse("0.04"),
        number("governor_time", "s", 0, 10, "Lag of governor and engine").orElse("0.2"),
        number("restore_time", "s", 0, 1000, "Back to nominal frequency; 0: never").orElse("0"),
        number("resistance", "", 0, 0.5, "Of the stator, per unit").orElse("0.02"),
        number("transient_reactance", "", 0.01, 1, "X', per unit").orElse("0.2"),
        number("synchronous_reactance", "", 0.02, 5, "Xd, per unit").orElse("1.5"),
        number("field_time", "s", 0.01, 20, "Open-circuit time constant of the field").orElse("1"),
        number("regulator_gain", "", 0.1, 500, "Of the voltage regulator").orElse("20"),
        number("start_time", "s", 0.1, 1000, "From rest to speed").orElse("5"),
        number("overfrequency", "Hz", 1, 200, "Overspeed trip").orElse("55"),
        delay("overfrequency_delay", "0.1"),
        number("underfrequency", "Hz", 1, 200, "Trip on low frequency").orElse("45"),
        delay("underfrequency_delay", "1"),
        number("overvoltage", "", 1, 2, "Trip, share of nominal").orElse("1.15"),
        delay("overvoltage_delay", "1"),
        number("undervoltage", "", 0, 1, "Trip, share of nominal").orElse("0.8"),
        delay("undervoltage_delay", "2"),
        number("overcurrent", "", 0.1, 20, "Trip, share of rated current").orElse("1.5"),
        delay("overcurrent_delay", "5"));
  }

  private static Parameter delay(String name, String fallback) {
    return number(name, "s", 0, 1000, "How long that must hold").orElse(fallback);
  }

  private static List<Parameter> transformer() {
    return List.of(
        text("from", "Node it is fed from"),
        text("to", "Node it feeds"),
        number("rating", "VA", 1, MOST, "Rated power"),
        number("primary", "V", 1, 50_000, "Rated voltage at the feeding side, line to line"),
        number("secondary", "V", 1, 50_000, "Rated voltage at the fed side, line to line"),
        number("impedance", "", 0, 0.5, "Short-circuit voltage, per unit").orElse("0.04"),
        number("resistance", "", 0, 0.5, "Resistive part of it, per unit").orElse("0.015"),
        choice("primary_winding", List.of("delta", "star"), "delta keeps earth current to itself")
            .orElse("delta"));
  }

  private static List<Parameter> line() {
    return List.of(
        text("from", "Node it is fed from"),
        text("to", "Node it feeds"),
        number("length", "m", 0, 1e6, "Length"),
        number("resistance", "ohm/km", 0, 1000, "Of a phase conductor"),
        number("reactance", "ohm/km", 0, 1000, "Of a phase conductor").orElse("0"),
        number("return_share", "", 0, 100, "Impedance of the return over that of a phase")
            .orElse("1"),
        number("conductor_area", "mm2", 0, 2000, "Of a phase; 0: its heat is not watched")
            .orElse("0"),
        number("damage_k", "A s^0.5/mm2", 1, 1000, "k of its insulation").orElse("115"),
        number("melting_k", "A s^0.5/mm2", 1, 1000, "k at which it melts").orElse("288"),
        number("continuous_current", "A", 0, MOST, "Above it heats, below it cools; 0: no cooling")
            .orElse("0"));
  }

  private static List<Parameter> load() {
    return List.of(
        text("node", "Where it is connected"),
        choice(
            "kind",
            List.of("impedance", "current", "power", "motor", "rectifier"),
            "What stays constant when the voltage changes"),
        choice("phases", PHASES, "Conductors; one letter: to the return").orElse("abc"),
        number("power", "W", 1e-3, MOST, "Active power at nominal voltage, all phases together"),
        number("power_factor", "", 0.05, 1, "Displacement power factor").orElse("1"),
        bool("leading", "TRUE: its current leads").orElse("FALSE"),
        number("pick_up", "", 1, 10, "Power after a long outage over its power").orElse("1"),
        number("pick_up_build", "s", 0.001, 1e6, "Time constant without voltage").orElse("600"),
        number("pick_up_decay", "s", 0.001, 1e6, "Time constant with voltage").orElse("300"),
        number("start_current", "", 1, 15, "motor: starting over rated current").orElse("6"),
        number("start_power_factor", "", 0.05, 0.9, "motor: at standstill").orElse("0.3"),
        number("inertia", "s", 0.01, 20, "motor: H, with its load").orElse("0.3"),
        bool("restarts", "motor: FALSE: its contactor lets go without voltage").orElse("TRUE"),
        number("dc_volts", "V", 0, 10_000, "rectifier with a port: its voltage at nominal; 0: none")
            .orElse("0"),
        number("dc_resistance", "ohm", 0, 1000, "rectifier with a port: inner resistance")
            .orElse("0"),
        number("multiplier", "", 1e-3, 1e6, "rectifier with a port: how many such it stands for")
            .orElse("1"),
        named("spectrum", harmonic(), "rectifier: harmonics of its current by name"));
  }

  private static List<Parameter> harmonic() {
    return List.of(
        integer("order", 2, 25, "Multiple of the fundamental frequency"),
        number("share", "", 0, 2, "Of the fundamental current"),
        number("angle", "deg", -360, 360, "Against the fundamental's, times the order")
            .orElse("0"));
  }

  private static List<Parameter> fault() {
    return List.of(
        text("line", "Line it is on"),
        number("place", "", 0, 1, "Share of the line's length").orElse("1"),
        choice(
                "joins",
                List.of("an", "bn", "cn", "ab", "bc", "ca", "abn", "bcn", "can", "abc", "abcn"),
                "Conductors it joins; n: earth and return")
            .orElse("an"),
        number("resistance", "ohm", 0, 1e6, "Of each joint; 0: bolted").orElse("0"),
        choice(
                "behaviour",
                List.of("permanent", "self_clearing", "arc", "returning", "drawn"),
                "When it goes away by itself")
            .orElse("permanent"),
        number("lasts", "s", 0, 1e6, "self_clearing: how long, dead or alive").orElse("0.5"),
        number("dead_time", "s", 0, 1e4, "Time without voltage that ends it; else by formula")
            .orElse("0"),
        number("returns_after", "s", 0.001, 1e6, "returning: time alive until it is back")
            .orElse("10"),
        integer("returns", 0, 1000, "returning: how often").orElse("1"));
  }

  private static List<Parameter> breaker() {
    return List.of(
        text("line", "Line or transformer at whose beginning it stands"),
        bool("closed", "At the start").orElse("TRUE"),
        number("opening_time", "s", 0, 10, "Coil to contacts apart").orElse("0.04"),
        number("arcing_time", "s", 0, 1, "Contacts apart to no current").orElse("0.01"),
        number("closing_time", "s", 0, 10, "Coil to contacts touching").orElse("0.08"),
        number("spring_time", "s", 0, 1000, "Charging of the spring after a close").orElse("10"),
        number("breaking_current", "A", 1, MOST, "Rated").orElse("10000"),
        integer("breaking_operations", 1, 1_000_000, "At rated breaking current").orElse("50"));
  }

  private static List<Parameter> fuse() {
    return List.of(
        text("line", "Line or transformer at whose beginning they stand"),
        number("rating", "A", 0.01, 1e5, "Rated current"),
        number("arcing_time", "s", 0, 1, "Melting to no current").orElse("0.005"),
        named(
            "curve",
            List.of(
                number("current", "A", 0.001, MOST, "Constant current"),
                number("time", "s", 1e-6, 1e6, "Melting time at that current")),
            "Points of the melting curve by name, from low to high current; else a generic one"));
  }

  private static List<Parameter> mcb() {
    return List.of(
        text("line", "Line or transformer at whose beginning it stands"),
        number("rating", "A", 0.01, 1e5, "Rated current"),
        choice("type", List.of("b", "c", "d"), "Band of its instantaneous release").orElse("c"));
  }

  private static List<Parameter> coil() {
    return List.of(
        text("node", "Where its voltage comes from"),
        choice("phase", List.of("a", "b", "c"), "Phase to the return").orElse("a"),
        number("pull_in", "", 0, 2, "Share of nominal voltage").orElse("0.85"),
        number("let_go", "", 0, 2, "Share of nominal voltage").orElse("0.5"),
        number("pull_in_time", "s", 0, 10, "Voltage there to contact closed").orElse("0.02"),
        number("let_go_time", "s", 0, 10, "Voltage gone to contact open").orElse("0.015"));
  }

  private static List<Parameter> meter() {
    return List.of(
        text("load", "Load whose consumption it measures; this or line").orElse(""),
        text("line", "Line at whose far end it measures; this or load").orElse(""),
        number("ct_ratio", "", 1e-3, 1e6, "Primary over secondary that it multiplies by")
            .orElse("1"),
        number("ct_actual", "", 0, 1e6, "Ratio of the transformer that is really there; 0: right")
            .orElse("0"),
        choice("polarity", List.of("normal", "reversed"), "Of its current transformers")
            .orElse("normal"),
        choice("accuracy", List.of("none", "0.2", "0.5", "1", "2"), "Class its error is drawn in")
            .orElse("none"),
        number("starting_current", "A", 0, 1e5, "Below it, it registers nothing").orElse("0"),
        number("demand_interval", "s", 1, 86_400, "Block of its demand").orElse("900"),
        integer("demand_parts", 1, 60, "Parts of a sliding block").orElse("3"),
        number("clock_start", "s", 0, 86_400, "Time of day at the start").orElse("0"));
  }
}
