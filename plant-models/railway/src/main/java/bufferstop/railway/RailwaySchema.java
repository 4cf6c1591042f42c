package bufferstop.railway;

import static bufferstop.spi.Parameter.bool;
import static bufferstop.spi.Parameter.choice;
import static bufferstop.spi.Parameter.integer;
import static bufferstop.spi.Parameter.item;
import static bufferstop.spi.Parameter.list;
import static bufferstop.spi.Parameter.named;
import static bufferstop.spi.Parameter.number;
import static bufferstop.spi.Parameter.text;

import bufferstop.spi.Parameter;
import java.util.ArrayList;
import java.util.List;

/** The parameters of a railway, as plain data; those of sensors are in {@link SensorSchema}. */
final class RailwaySchema {

  /** Wide enough for a full-size yard, narrow enough to catch a slip of the unit. */
  static final double FAR = 100_000;

  static final double SMALL = 1e-6;
  private static final double HEAVY = 1e7;
  private static final double STRONG = 1e8;

  static final List<Parameter> PARAMETERS = parameters();

  private RailwaySchema() {}

  private static List<Parameter> parameters() {
    List<Parameter> all = new ArrayList<>(track());
    all.addAll(
        List.of(
            named("feeds", feed(), "Supplies of the track by name"),
            item("coupling", coupling(), "What happens where two vehicles meet"),
            item("brakes", brakes(), "Brakes worked along the train").orElse(""),
            named("locomotives", locomotive(), "Locomotives by name"),
            named("wagons", wagon(), "Wagons by name"),
            named("uncouplers", uncoupler(), "Uncouplers in the track by name"),
            named("hoppers", hopper(), "Loading hoppers above the track by name"),
            named("discharges", discharge(), "Places where wagons are emptied, by name"),
            named("signals", signal(), "Signals that drivers obey, by name"),
            named("crossings", crossing(), "Level crossings by name"),
            named("obstacles", obstacle(), "Persons or things that may be on the track, by name")));
    all.addAll(SensorSchema.PARAMETERS);
    return List.copyOf(all);
  }

  private static List<Parameter> track() {
    return List.of(
        named("segments", segment(), "Pieces of track by name; their ends are NAME.low, NAME.high"),
        list(
            "joints",
            List.of(text("from", "End of a segment"), text("to", "End of the next one")),
            "Plain joints of two ends"),
        named("turnouts", turnout(), "Turnouts by name"),
        named("buffers", buffer(), "Buffer stops by name"),
        list("open_ends", List.of(text("at", "End of a segment")), "Ends with nothing behind"),
        number("fastest", "m/s", 0, 1000, "Greatest speed on segments without a limit; 0: not told")
            .orElse("0"),
        number("curve_resistance", "m", 0, 100, "Resistance over weight in a curve, times radius")
            .orElse("0.6986"),
        number("lateral_limit", "m/s2", 0, 100, "Sideways acceleration that derails; 0: none does")
            .orElse("0"));
  }

  private static List<Parameter> segment() {
    return List.of(
        number("length", "m", 0.001, FAR, "Length"),
        number("from", "m", -FAR, FAR, "Distance post at its low end").orElse("0"),
        number("gradient", "", -0.5, 0.5, "Rise over length towards its high end").orElse("0"),
        number("curve_radius", "m", 0, FAR, "Radius; 0: straight").orElse("0"),
        number("cant", "rad", 0, 0.5, "Banking of its curve").orElse("0"),
        number("speed_limit", "m/s", 0, 1000, "Speed limit; 0: none").orElse("0"),
        text("feed", "The feed that supplies it; the only one when left out").orElse(""),
        text("block", "The block that watches it; the only one when left out").orElse(""),
        bool("dead", "No supply on this piece").orElse("FALSE"));
  }

  private static List<Parameter> turnout() {
    return List.of(
        text("toe", "End of the segment at its blades"),
        text("normal", "End reached when it lies normal"),
        text("reverse", "End reached when it lies reverse"),
        number("move_time", "s", 0, 1000, "Time from one end contact to the other"),
        number("fouling", "m", 0, 1000, "Distance from it at which legs are clear of each other")
            .orElse("0"),
        bool("trailable", "A train from the wrong leg pushes the blades over and harms nothing")
            .orElse("FALSE"),
        bool("starts_reverse", "Lies reverse at the start").orElse("FALSE"));
  }

  private static List<Parameter> buffer() {
    return List.of(
        text("at", "End of the segment; its face stands there"),
        number("force", "N", 0, STRONG, "Retarding force of the friction stop while it is pushed"),
        number("travel", "m", 0, 1000, "Travel at that force; then come the stages, then a wall"),
        list(
            "stages",
            List.of(
                number("force", "N", 0, STRONG, "Retarding force"),
                number("travel", "m", 0, 1000, "Travel at that force")),
            "Further stages behind the first"));
  }

  private static List<Parameter> feed() {
    return List.of(
        choice("supply", List.of("dc", "ac"), "dc: polarity switched; ac: three-rail").orElse("dc"),
        number("volts", "V", -100_000, 100_000, "Supply while its port volts is not wired")
            .orElse("12"),
        bool("returns_current", "TRUE: takes current back (battery); FALSE: it is a rectifier")
            .orElse("FALSE"),
        choice(
                "when_off",
                List.of("open", "shorted"),
                "Motor circuit with the contactor off: open coasts, shorted brakes")
            .orElse("open"),
        number("boost_volts", "V", 0, 100_000, "Voltage while boosted; 0: it has no boost")
            .orElse("0"));
  }

  private static List<Parameter> coupling() {
    return List.of(
        number("gap", "m", 0, 100, "Clear distance between coupled bodies, bunched"),
        number("slack", "m", 0, 10, "How much farther apart they may be, stretched").orElse("0"),
        number("strength", "N", 0, STRONG, "Tension that parts a coupler; 0: none does")
            .orElse("0"),
        number("min_speed", "m/s", 0, 100, "Slowest closing speed that couples").orElse("0.02"),
        number("max_speed", "m/s", 0, 100, "Fastest closing speed that couples").orElse("0.6"),
        number("restitution", "", 0, 1, "Rebound above the fastest closing speed").orElse("0.3"));
  }

  private static List<Parameter> brakes() {
    return List.of(
        number("build_up", "s", 0, 100, "Time from released to fully applied, and back"),
        number("adhesion", "", 0, 1, "Coefficient that bounds every vehicle's brake")
            .orElse("0.25"),
        bool("automatic", "Vehicles parted from every locomotive brake by themselves")
            .orElse("TRUE"));
  }

  private static List<Parameter> vehicle() {
    List<Parameter> all = new ArrayList<>();
    all.add(number("length", "m", 0.001, 1000, "Length of the body"));
    all.add(
        number("wheelbase", "m", 0, 1000, "From first to last axle; 0: 0.6 of the length")
            .orElse("0"));
    all.add(integer("axles", 1, 100, "Number of axles").orElse("2"));
    all.add(
        number("rolling_resistance", "", 0, 1, "Rolling resistance over weight").orElse("0.03"));
    all.add(item("davis", davis(), "Resistance by speed in place of the constant one").orElse(""));
    all.add(number("brake_force", "N", 0, STRONG, "Force of its brake, fully applied").orElse("0"));
    all.add(
        number("start", "m", -FAR, FAR, "Distance post at its middle at the start").orElse("0"));
    all.add(text("segment", "Where that is; the only segment when left out").orElse(""));
    all.add(text("behind", "In place of start: coupled behind this vehicle").orElse(""));
    all.add(number("start_speed", "m/s", -1000, 1000, "Speed at the start, forward").orElse("0"));
    all.add(choice("facing", List.of("high", "low"), "Where its front points").orElse("high"));
    return all;
  }

  private static List<Parameter> davis() {
    return List.of(
        number("per_tonne", "N/t", 0, 1000, "Constant, for each tonne"),
        number("per_axle", "N", 0, 1e6, "Constant, for each axle"),
        number("per_tonne_speed", "N s/(m t)", 0, 1000, "By speed, for each tonne"),
        number("by_square", "N s2/m2", 0, 10_000, "By the square of speed"));
  }

  private static List<Parameter> locomotive() {
    List<Parameter> all = vehicle();
    all.add(1, number("mass", "kg", SMALL, HEAVY, "Mass without the rotor's inertia"));
    all.add(
        number("axle_resistance", "ohm", 0, 1e9, "Of each axle, rail to rail; 0: none")
            .orElse("200"));
    all.add(
        number("magnet_offset", "m", -100, 100, "Magnet for the reeds, from the middle")
            .orElse("0"));
    all.add(number("adhesion", "", 0, 1000, "Coefficient of the driven wheels").orElse("0.25"));
    all.add(
        choice("adhesion_law", List.of("constant", "by_speed"), "by_speed: Curtius and Kniffler")
            .orElse("constant"));
    all.add(number("driven_share", "", 0, 1, "Share of its weight on driven wheels").orElse("1"));
    all.add(item("motor", TractionSchema.dcMotor(), "Permanent-magnet motor, dc").orElse(""));
    all.add(
        item("series_motor", TractionSchema.seriesMotor(), "Series motor with reverser, ac")
            .orElse(""));
    all.add(
        item("drive", TractionSchema.drive(), "Full-size drive by effort and power").orElse(""));
    all.add(
        number("uncouples_above", "V", 0, 100_000, "Track voltage that opens its couplers; 0: none")
            .orElse("0"));
    all.add(bool("remote_uncoupling", "Has an input that opens its couplers").orElse("FALSE"));
    return all;
  }

  private static List<Parameter> wagon() {
    List<Parameter> all = vehicle();
    all.add(1, number("tare", "kg", SMALL, HEAVY, "Mass empty"));
    all.add(2, number("capacity", "kg", 0, HEAVY, "Greatest load").orElse("0"));
    all.add(3, number("load", "kg", 0, HEAVY, "Load at the start").orElse("0"));
    all.add(integer("count", 1, 200, "So many alike in a row, NAME_1 in front").orElse("1"));
    all.add(
        number("axle_resistance", "ohm", 0, 1e9, "Of each axle, rail to rail; 0: none")
            .orElse("15000"));
    all.add(bool("coupled_at_start", "Coupled at its front to the vehicle there").orElse("FALSE"));
    return all;
  }

  private static List<Parameter> uncoupler() {
    return List.of(
        position("Where it acts"),
        segmentOf(),
        number("tolerance", "m", 0, 100, "How far from there a coupler may stand"));
  }

  private static List<Parameter> hopper() {
    return List.of(
        position("Middle of the spout"),
        segmentOf(),
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
        number("from", "m", -FAR, FAR, "Low end of the place for a wagon's middle"),
        number("to", "m", -FAR, FAR, "High end of the place for a wagon's middle"),
        segmentOf(),
        number("rate", "kg/s", SMALL, 1e6, "Rate at which a tipped wagon empties"));
  }

  private static List<Parameter> signal() {
    return List.of(
        position("Where a train must stop"),
        segmentOf(),
        choice("for_trains_to", List.of("high", "low"), "Direction of the trains it is for"),
        number("sighting", "m", 0, FAR, "From how far it is seen"));
  }

  private static List<Parameter> crossing() {
    return List.of(
        number("from", "m", -FAR, FAR, "Low edge of the road"),
        number("to", "m", -FAR, FAR, "High edge of the road"),
        segmentOf(),
        number("lower_time", "s", 0, 1000, "Time of the barriers from up to down"),
        number("raise_time", "s", 0, 1000, "Time of the barriers from down to up"));
  }

  private static List<Parameter> obstacle() {
    return List.of(
        position("Where it is"),
        segmentOf(),
        number("length", "m", 0, 100, "Its length along the track").orElse("0"));
  }

  static Parameter position(String text) {
    return number("position", "m", -FAR, FAR, text);
  }

  static Parameter segmentOf() {
    return text("segment", "Where that is; the only segment when left out").orElse("");
  }
}
