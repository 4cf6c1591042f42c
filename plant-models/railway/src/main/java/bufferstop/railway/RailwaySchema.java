package bufferstop.railway;

import static bufferstop.spi.Parameter.bool;
import static bufferstop.spi.Parameter.choice;
import static bufferstop.spi.Parameter.item;
import static bufferstop.spi.Parameter.named;
import static bufferstop.spi.Parameter.number;

import bufferstop.spi.Parameter;
import java.util.List;

/** The parameters of a line, as plain data. */
final class RailwaySchema {

  /** Wide enough for a full-size yard, narrow enough to catch a slip of the unit. */
  private static final double FAR = 100_000;

  private static final double SMALL = 1e-6;
  private static final double HEAVY = 1e7;

  static final List<Parameter> PARAMETERS =
      List.of(
          number("supply_volts", "V", -10_000, 10_000, "Supply while feed.volts is not wired")
              .orElse("12"),
          bool(
                  "supply_returns_current",
                  "TRUE: the supply takes current back (battery); FALSE: it is a rectifier")
              .orElse("FALSE"),
          choice(
                  "when_off",
                  List.of("open", "shorted"),
                  "Motor circuit with the contactor off: open coasts, shorted brakes")
              .orElse("open"),
          item("pit_end", end(), "Buffer stop at the low end"),
          item("shed_end", end(), "Buffer stop at the high end"),
          item("coupling", coupling(), "What happens where two vehicles meet"),
          item("locomotive", locomotive(), "The locomotive; the order along the line is by start"),
          named("wagons", wagon(), "Wagons by name"),
          item("uncoupler", uncoupler(), "Uncoupler in the track").orElse(""),
          item("hopper", hopper(), "Loading hopper above the track").orElse(""),
          item("discharge", discharge(), "Place where wagons are emptied").orElse(""),
          named("beams", beam(), "Through-beams across the track by name"),
          named("reeds", reed(), "Reed switches in the track by name"));

  private RailwaySchema() {}

  private static List<Parameter> end() {
    return List.of(
        place("face", "Place of the buffer face"),
        number("force", "N", 0, 1e8, "Retarding force of the friction stop while it is pushed"),
        number("travel", "m", 0, 1000, "Travel of the friction stop; a rigid wall stands behind"));
  }

  private static List<Parameter> coupling() {
    return List.of(
        number("gap", "m", 0, 100, "Clear distance between coupled bodies"),
        number("min_speed", "m/s", 0, 100, "Slowest closing speed that couples").orElse("0.02"),
        number("max_speed", "m/s", 0, 100, "Fastest closing speed that couples").orElse("0.6"),
        number("restitution", "", 0, 1, "Rebound above the fastest closing speed").orElse("0.3"));
  }

  private static List<Parameter> locomotive() {
    return List.of(
        length(),
        number("mass", "kg", SMALL, HEAVY, "Mass without the rotor's inertia"),
        rolling(),
        place("start", "Where its middle stands at the start"),
        number("magnet_offset", "m", -100, 100, "Magnet for the reeds, from the middle")
            .orElse("0"),
        number("adhesion", "", 0, 1000, "Coefficient of adhesion of the driven wheels")
            .orElse("0.25"),
        number("driven_share", "", 0, 1, "Share of the weight on driven wheels").orElse("1"),
        item("motor", motor(), "Permanent-magnet DC motor"));
  }

  private static List<Parameter> motor() {
    return List.of(
        number("resistance", "ohm", SMALL, 1e6, "Armature resistance"),
        number("constant", "V s/rad", 1e-9, 1e6, "Volts per rad/s, equally N m per ampere"),
        number("gear", "", SMALL, 1e6, "Turns of the motor per turn of the wheel"),
        number("wheel_radius", "m", SMALL, 100, "Radius of the driven wheels"),
        number("friction_torque", "N m", 0, 1e6, "Constant friction torque at the motor shaft"),
        number("rotor_inertia", "kg m2", 1e-12, 1e6, "Inertia of the rotor"));
  }

  private static List<Parameter> wagon() {
    return List.of(
        length(),
        number("tare", "kg", SMALL, HEAVY, "Mass empty"),
        number("capacity", "kg", 0, HEAVY, "Greatest load"),
        number("load", "kg", 0, HEAVY, "Load at the start").orElse("0"),
        rolling(),
        place("start", "Where its middle stands at the start"),
        bool("coupled_at_start", "Coupled to the next vehicle towards the shed").orElse("FALSE"));
  }

  private static List<Parameter> uncoupler() {
    return List.of(
        place("position", "Where it acts"),
        number("tolerance", "m", 0, 100, "How far from there a coupler may stand"));
  }

  private static List<Parameter> hopper() {
    return List.of(
        place("position", "Middle of the spout"),
        number("spout", "m", SMALL, 100, "Width of the spout along the line"),
        number("stock", "kg", 0, 1e9, "Stock at the start"),
        number("gate_time", "s", 0, 1000, "Travel time of the gate from shut to open"),
        number("flow", "kg/s", 0, 1e6, "Flow with the gate open; 0: worked out from the orifice")
            .orElse("0"),
        number("orifice", "m", 0, 100, "Diameter of the round orifice").orElse("0"),
        number("grain", "m", 0, 10, "Grain diameter").orElse("0"),
        number("bulk_density", "kg/m3", 0, 1e5, "Bulk density").orElse("0"));
  }

  private static List<Parameter> discharge() {
    return List.of(
        place("from", "Low end of the place for a wagon's middle"),
        place("to", "High end of the place for a wagon's middle"),
        number("rate", "kg/s", SMALL, 1e6, "Rate at which a tipped wagon empties"));
  }

  private static List<Parameter> beam() {
    return List.of(
        place("position", "Middle of the beam"),
        number("width", "m", 1e-4, 10, "Width along the line").orElse("0.005"),
        number("p_on", "", 0, 1, "Covered share at which it is blocked").orElse("0.6"),
        number("p_off", "", 0, 1, "Covered share down to which it stays blocked").orElse("0.4"),
        number("on_delay", "s", 0, 60, "How long it must be blocked before it says so")
            .orElse("0.0005"),
        number("off_delay", "s", 0, 60, "How long it must be clear before it says so")
            .orElse("0.0005"),
        choice("output", List.of("dark", "light"), "TRUE while blocked (dark) or clear (light)")
            .orElse("dark"));
  }

  private static List<Parameter> reed() {
    return List.of(
        place("position", "Middle of the switch"),
        number("operate", "m", SMALL, 10, "Distance of the magnet at which it closes"),
        number("release", "m", SMALL, 10, "Distance of the magnet at which it opens"),
        number("closest", "m", 0, 10, "Closest distance of a passing magnet").orElse("0"));
  }

  private static Parameter length() {
    return number("length", "m", 0.001, 1000, "Length of the body");
  }

  private static Parameter rolling() {
    return number("rolling_resistance", "", 0, 1, "Rolling resistance over weight").orElse("0.03");
  }

  private static Parameter place(String name, String text) {
    return number(name, "m", -FAR, FAR, text);
  }
}
