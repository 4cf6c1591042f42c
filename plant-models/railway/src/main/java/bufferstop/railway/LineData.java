package bufferstop.railway;

import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * A line as its settings describe it, all in SI units. A record that can be at fault keeps the
 * {@link Settings} it came from, so that a problem can name its place.
 *
 * @param vehicles in order along the line, low first
 * @param uncoupler null when the line has none
 * @param hopper null when the line has none
 * @param discharge null when the line has none
 */
record LineData(
    double supplyVolts,
    boolean supplyReturnsCurrent,
    boolean shortedWhenOff,
    EndData pitEnd,
    EndData shedEnd,
    CouplingData coupling,
    LocoData loco,
    List<VehicleData> vehicles,
    UncouplerData uncoupler,
    HopperData hopper,
    DischargeData discharge,
    List<BeamData> beams,
    List<ReedData> reeds) {

  record EndData(double faceMetres, double newtons, double travelMetres, Settings at) {}

  record CouplingData(
      double gapMetres, double minSpeed, double maxSpeed, double restitution, Settings at) {}

  record LocoData(double magnetOffsetMetres, double adhesion, double drivenShare, Motor motor) {}

  /** One vehicle; {@code startMetres} is its middle. */
  record VehicleData(
      String name,
      boolean loco,
      double lengthMetres,
      double tareKg,
      double capacityKg,
      double loadKg,
      double rolling,
      double startMetres,
      boolean coupledAtStart,
      Settings at) {
    double low() {
      return startMetres - lengthMetres / 2;
    }

    double high() {
      return startMetres + lengthMetres / 2;
    }
  }

  record UncouplerData(double positionMetres, double toleranceMetres, Settings at) {}

  record HopperData(
      double positionMetres,
      double spoutMetres,
      double stockKg,
      double gateSeconds,
      double kgPerSecond,
      Settings at) {}

  record DischargeData(double fromMetres, double toMetres, double kgPerSecond, Settings at) {}

  record BeamData(
      String name,
      double positionMetres,
      double widthMetres,
      double blockedShare,
      double clearShare,
      long onMicros,
      long offMicros,
      boolean dark,
      Settings at) {}

  record ReedData(
      String name,
      double positionMetres,
      double operateMetres,
      double releaseMetres,
      double closestMetres,
      Settings at) {}

  static LineData read(Settings s) {
    Settings loco = s.item("locomotive");
    return new LineData(
        s.number("supply_volts"),
        s.bool("supply_returns_current"),
        s.text("when_off").equals("shorted"),
        end(s.item("pit_end")),
        end(s.item("shed_end")),
        coupling(s.item("coupling")),
        new LocoData(
            loco.number("magnet_offset"),
            loco.number("adhesion"),
            loco.number("driven_share"),
            motor(loco.item("motor"))),
        vehicles(loco, s.named("wagons")),
        s.has("uncoupler") ? uncoupler(s.item("uncoupler")) : null,
        s.has("hopper") ? hopper(s.item("hopper")) : null,
        s.has("discharge") ? discharge(s.item("discharge")) : null,
        beams(s.named("beams")),
        reeds(s.named("reeds")));
  }

  private static EndData end(Settings s) {
    return new EndData(s.number("face"), s.number("force"), s.number("travel"), s);
  }

  private static CouplingData coupling(Settings s) {
    return new CouplingData(
        s.number("gap"), s.number("min_speed"), s.number("max_speed"), s.number("restitution"), s);
  }

  private static Motor motor(Settings s) {
    return new Motor(
        s.number("resistance"),
        s.number("constant"),
        s.number("gear"),
        s.number("wheel_radius"),
        s.number("friction_torque"),
        s.number("rotor_inertia"));
  }

  private static List<VehicleData> vehicles(Settings loco, Map<String, Settings> wagons) {
    List<VehicleData> all = new ArrayList<>();
    all.add(
        new VehicleData(
            "loco",
            true,
            loco.number("length"),
            loco.number("mass"),
            0,
            0,
            loco.number("rolling_resistance"),
            loco.number("start"),
            false,
            loco));
    wagons.forEach((name, s) -> all.add(wagon(name, s)));
    all.sort((a, b) -> Double.compare(a.startMetres(), b.startMetres()));
    return List.copyOf(all);
  }

  private static VehicleData wagon(String name, Settings s) {
    return new VehicleData(
        name,
        false,
        s.number("length"),
        s.number("tare"),
        s.number("capacity"),
        s.number("load"),
        s.number("rolling_resistance"),
        s.number("start"),
        s.bool("coupled_at_start"),
        s);
  }

  private static UncouplerData uncoupler(Settings s) {
    return new UncouplerData(s.number("position"), s.number("tolerance"), s);
  }

  private static HopperData hopper(Settings s) {
    double flow = s.number("flow");
    if (flow == 0) {
      flow = Hopper.orificeFlow(s.number("orifice"), s.number("grain"), s.number("bulk_density"));
    }
    return new HopperData(
        s.number("position"), s.number("spout"), s.number("stock"), s.number("gate_time"), flow, s);
  }

  private static DischargeData discharge(Settings s) {
    return new DischargeData(s.number("from"), s.number("to"), s.number("rate"), s);
  }

  private static List<BeamData> beams(Map<String, Settings> all) {
    List<BeamData> beams = new ArrayList<>();
    all.forEach((name, s) -> beams.add(beam(name, s)));
    return List.copyOf(beams);
  }

  private static BeamData beam(String name, Settings s) {
    return new BeamData(
        name,
        s.number("position"),
        s.number("width"),
        s.number("p_on"),
        s.number("p_off"),
        micros(s.number("on_delay")),
        micros(s.number("off_delay")),
        s.text("output").equals("dark"),
        s);
  }

  private static List<ReedData> reeds(Map<String, Settings> all) {
    List<ReedData> reeds = new ArrayList<>();
    all.forEach((name, s) -> reeds.add(reed(name, s)));
    return List.copyOf(reeds);
  }

  private static ReedData reed(String name, Settings s) {
    return new ReedData(
        name,
        s.number("position"),
        s.number("operate"),
        s.number("release"),
        s.number("closest"),
        s);
  }

  private static long micros(double seconds) {
    return Math.round(seconds * 1e6);
  }
}
