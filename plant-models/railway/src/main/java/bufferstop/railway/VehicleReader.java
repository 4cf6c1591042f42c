package bufferstop.railway;

import bufferstop.railway.TrackData.Place;
import bufferstop.railway.VehicleData.DriveData;
import bufferstop.railway.VehicleData.DriverData;
import bufferstop.railway.VehicleData.LocoData;
import bufferstop.railway.VehicleData.Resistance;
import bufferstop.railway.VehicleData.ReverserData;
import bufferstop.railway.VehicleData.SeriesData;
import bufferstop.railway.VehicleData.TractionData;
import bufferstop.spi.PartNames;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;

/** Reads locomotives and wagons, rows of wagons spread out one by one. */
final class VehicleReader {
  private static final List<String> REVERSER_STATES =
      List.of("forward", "neutral_1", "reverse", "neutral_2");
  private static final double WHEELBASE_SHARE = 0.6; // where none is given, project choice

  private final Settings settings;
  private final Names names;
  private final List<VehicleData> all = new ArrayList<>();

  VehicleReader(Settings settings, Names names) {
    this.settings = settings;
    this.names = names;
  }

  List<VehicleData> read() {
    settings.named("locomotives").forEach(this::locomotive);
    settings.named("wagons").forEach(this::wagons);
    return List.copyOf(all);
  }

  private void locomotive(String name, Settings s) {
    names.part("locomotive", "", name, s);
    LocoData loco =
        new LocoData(
            s.number("adhesion"),
            s.text("adhesion_law").equals("by_speed"),
            s.number("driven_share"),
            traction(name, s),
            s.number("uncouples_above"),
            s.bool("remote_uncoupling"));
    double magnet = s.number("magnet_offset");
    all.add(vehicle(name, s, "mass", 0, 0, behind(name, s), false, magnet, loco));
  }

  private void wagons(String name, Settings s) {
    int count = (int) s.integer("count");
    double load = s.number("load");
    double capacity = s.number("capacity");
    if (load > capacity) {
      names
          .problems()
          .error(
              s,
              "load",
              "the load `" + load + "` of `" + name + "` is more than it can hold",
              "0 to " + capacity + " kg",
              "lower the load or raise the capacity");
    }
    for (int i = 1; i <= count; i++) {
      String each = count == 1 ? name : name + "_" + i;
      names.part("wagon", "wagon.", each, s);
      int behind = i == 1 ? behind(name, s) : all.size() - 1;
      boolean coupled = i == 1 && s.bool("coupled_at_start");
      all.add(vehicle(each, s, "tare", capacity, load, behind, coupled, Double.NaN, null));
    }
  }

  /** Number of the vehicle this one stands behind; -1 when it has a start of its own. */
  private int behind(String name, Settings s) {
    String front = s.text("behind");
    if (front.isEmpty()) {
      if (!s.has("start")) {
        names
            .problems()
            .error(
                s,
                "start",
                "nobody knows where `" + name + "` stands",
                "`start`, or `behind` a vehicle named before it",
                "add one of the two");
      }
      return -1;
    }
    for (int i = all.size() - 1; i >= 0; i--) {
      if (all.get(i).name().equals(front) || all.get(i).name().startsWith(front + "_")) {
        return i;
      }
    }
    names
        .problems()
        .error(
            s,
            "behind",
            "no vehicle named `" + front + "` comes before `" + name + "`",
            String.join(", ", all.stream().map(VehicleData::name).toList()),
            PartNames.nearest(front, all.stream().map(VehicleData::name).toList()));
    return -1;
  }

  private VehicleData vehicle(
      String name,
      Settings s,
      String mass,
      double capacity,
      double load,
      int behind,
      boolean coupled,
      double magnet,
      LocoData loco) {
    double length = s.number("length");
    double wheelbase = s.number("wheelbase");
    if (wheelbase > length) {
      names
          .problems()
          .error(
              s,
              "wheelbase",
              "the wheelbase of `" + name + "` is longer than its body",
              "at most " + length + " m",
              "it counts from the first axle to the last");
    }
    boolean conducts = s.number("axle_resistance") > 0;
    boolean known = behind < 0 && s.has("start") && s.text("behind").isEmpty();
    Place start = known ? names.place(s, "start", 0, "`" + name + "`") : null;
    return new VehicleData(
        name,
        length,
        wheelbase > 0 ? wheelbase : length * WHEELBASE_SHARE,
        (int) s.integer("axles"),
        s.number(mass),
        capacity,
        load,
        resistance(s),
        s.number("brake_force"),
        start,
        behind,
        s.number("start_speed"),
        coupled,
        s.text("facing").equals("high") ? 1 : -1,
        conducts ? s.number("axle_resistance") : Double.POSITIVE_INFINITY,
        magnet,
        loco,
        s);
  }

  private static Resistance resistance(Settings s) {
    if (!s.has("davis")) {
      return new Resistance(s.number("rolling_resistance"), 0, 0, 0, 0);
    }
    Settings d = s.item("davis");
    return new Resistance(
        0,
        d.number("per_tonne"),
        d.number("per_axle"),
        d.number("per_tonne_speed"),
        d.number("by_square"));
  }

  private TractionData traction(String name, Settings s) {
    List<String> kinds = List.of("motor", "series_motor", "drive");
    List<String> given = kinds.stream().filter(s::has).toList();
    if (given.size() != 1) {
      names
          .problems()
          .error(
              s,
              given.isEmpty() ? "motor" : given.get(1),
              given.isEmpty()
                  ? "`" + name + "` has no traction"
                  : "`" + name + "` has more than one kind of traction",
              "one of " + String.join(", ", kinds),
              given.isEmpty() ? "add one" : "take all but one away");
      return new DriveData(0, 1, 1, false, 1, null);
    }
    return switch (given.get(0)) {
      case "motor" -> motor(s.item("motor"));
      case "series_motor" -> series(s.item("series_motor"));
      default -> drive(s.item("drive"));
    };
  }

  private static Motor motor(Settings s) {
    return new Motor(
        s.number("resistance"),
        s.number("constant"),
        s.number("gear"),
        s.number("wheel_radius"),
        s.number("friction_torque"),
        s.number("rotor_inertia"),
        s.number("inductance"),
        s.number("viscous_friction"));
  }

  private static SeriesData series(Settings s) {
    return new SeriesData(
        s.number("resistance"),
        s.number("reactance"),
        s.number("constant"),
        s.number("gear"),
        s.number("wheel_radius"),
        s.number("friction_torque"),
        s.number("rotor_inertia"),
        s.has("reverser") ? reverser(s.item("reverser")) : null);
  }

  private static ReverserData reverser(Settings s) {
    return new ReverserData(
        micros(s.number("steps_after")),
        micros(s.number("resets_after")),
        REVERSER_STATES.indexOf(s.text("start")),
        s.bool("locked"));
  }

  private static DriveData drive(Settings s) {
    Settings driver = s.has("driver") ? s.item("driver") : null;
    return new DriveData(
        s.number("effort"),
        s.number("power"),
        s.number("efficiency"),
        s.bool("electric"),
        s.number("rotating_share"),
        driver == null
            ? null
            : new DriverData(
                driver.number("speed"), driver.number("braking"), driver.number("margin")));
  }

  static long micros(double seconds) {
    return Math.round(seconds * 1e6);
  }
}
