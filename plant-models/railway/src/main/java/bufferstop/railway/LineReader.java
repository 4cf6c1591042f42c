package bufferstop.railway;

import bufferstop.railway.LineData.BrakesData;
import bufferstop.railway.LineData.CouplingData;
import bufferstop.railway.LineData.CrossingData;
import bufferstop.railway.LineData.DischargeData;
import bufferstop.railway.LineData.FeedData;
import bufferstop.railway.LineData.HopperData;
import bufferstop.railway.LineData.ObstacleData;
import bufferstop.railway.LineData.SignalData;
import bufferstop.railway.LineData.UncouplerData;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;

/** Reads a whole railway; what the schema cannot say about one mapping is checked here. */
final class LineReader {
  private final Settings settings;
  private final Names names;

  LineReader(Settings settings, Names names) {
    this.settings = settings;
    this.names = names;
  }

  LineData read() {
    TrackData track = new TrackReader(settings, names).read();
    return new LineData(
        track,
        all("feeds", "feed", "", LineReader::feed),
        coupling(settings.item("coupling")),
        settings.has("brakes") ? brakes(settings.item("brakes")) : null,
        new VehicleReader(settings, names).read(),
        all("uncouplers", "uncoupler", "", this::uncoupler),
        all("hoppers", "hopper", "", this::hopper),
        all("discharges", "discharge", "", this::discharge),
        all("signals", "signal", "signal.", this::signal),
        all("crossings", "crossing", "crossing.", this::crossing),
        all("obstacles", "obstacle", "obstacle.", this::obstacle),
        new SensorReader(settings, names).read());
  }

  private <T> List<T> all(
      String section, String kind, String prefix, BiFunction<String, Settings, T> reader) {
    List<T> list = new ArrayList<>();
    settings
        .named(section)
        .forEach(
            (name, s) -> {
              names.part(kind, prefix, name, s);
              list.add(reader.apply(name, s));
            });
    return List.copyOf(list);
  }

  private static FeedData feed(String name, Settings s) {
    return new FeedData(
        name,
        s.text("supply").equals("ac"),
        s.number("volts"),
        s.bool("returns_current"),
        s.text("when_off").equals("shorted"),
        s.number("boost_volts"),
        s);
  }

  private CouplingData coupling(Settings s) {
    CouplingData data =
        new CouplingData(
            s.number("gap"),
            s.number("slack"),
            s.number("strength"),
            s.number("min_speed"),
            s.number("max_speed"),
            s.number("restitution"),
            s);
    if (data.maxSpeed() < data.minSpeed()) {
      names
          .problems()
          .error(
              s,
              "max_speed",
              "no closing speed couples: max_speed is below min_speed",
              "at least " + data.minSpeed() + " m/s",
              "raise max_speed or lower min_speed");
    }
    return data;
  }

  private static BrakesData brakes(Settings s) {
    return new BrakesData(s.number("build_up"), s.bool("automatic"), s.number("adhesion"));
  }

  private UncouplerData uncoupler(String name, Settings s) {
    return new UncouplerData(
        name, names.place(s, "position", 0, "uncoupler `" + name + "`"), s.number("tolerance"), s);
  }

  private HopperData hopper(String name, Settings s) {
    boolean flow = s.number("flow") > 0;
    boolean orifice = s.number("orifice") > 0;
    double rate =
        flow
            ? s.number("flow")
            : Hopper.orificeFlow(s.number("orifice"), s.number("grain"), s.number("bulk_density"));
    if (flow == orifice) {
      names
          .problems()
          .error(
              s,
              "flow",
              flow
                  ? "the flow of hopper `" + name + "` is given twice"
                  : "hopper `" + name + "` has no flow",
              "either flow, or orifice with grain and bulk_density",
              flow ? "remove flow or orifice" : "give flow in kg/s");
    } else if (rate <= 0) {
      names
          .problems()
          .error(
              s,
              "orifice",
              "nothing flows through this orifice",
              "above 1.4 grain diameters, and a bulk density above 0",
              "widen the orifice or give bulk_density");
    }
    return new HopperData(
        name,
        names.place(s, "position", s.number("spout") / 2, "hopper `" + name + "`"),
        s.number("spout"),
        s.number("stock"),
        s.number("gate_time"),
        rate,
        s);
  }

  private DischargeData discharge(String name, Settings s) {
    String what = "discharge `" + name + "`";
    forward(s, what);
    return new DischargeData(
        name, names.place(s, "from", 0, what), names.place(s, "to", 0, what), s.number("rate"), s);
  }

  private void forward(Settings s, String what) {
    if (s.number("to") < s.number("from")) {
      names
          .problems()
          .error(
              s,
              "to",
              what + " ends before it begins",
              "at least " + s.number("from") + " m",
              "exchange from and to");
    }
  }

  private SignalData signal(String name, Settings s) {
    return new SignalData(
        name,
        names.place(s, "position", 0, "signal `" + name + "`"),
        s.text("for_trains_to").equals("high"),
        s.number("sighting"),
        s);
  }

  private CrossingData crossing(String name, Settings s) {
    String what = "crossing `" + name + "`";
    forward(s, what);
    return new CrossingData(
        name,
        names.place(s, "from", 0, what),
        names.place(s, "to", 0, what),
        s.number("lower_time"),
        s.number("raise_time"),
        s);
  }

  private ObstacleData obstacle(String name, Settings s) {
    return new ObstacleData(
        name,
        names.place(s, "position", s.number("length") / 2, "obstacle `" + name + "`"),
        s.number("length"),
        s);
  }
}
