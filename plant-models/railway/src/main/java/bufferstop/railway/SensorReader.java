package bufferstop.railway;

import static bufferstop.railway.VehicleReader.micros;

import bufferstop.railway.LineData.BeamData;
import bufferstop.railway.LineData.BlockData;
import bufferstop.railway.LineData.ChainData;
import bufferstop.railway.LineData.ConditionerData;
import bufferstop.railway.LineData.CounterData;
import bufferstop.railway.LineData.ReedData;
import bufferstop.railway.LineData.RelayData;
import bufferstop.railway.LineData.ScaleData;
import bufferstop.railway.LineData.SensorsData;
import bufferstop.railway.LineData.TerminalData;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;

/** Reads sensors, conditioners and relays. */
final class SensorReader {
  private final Settings settings;
  private final Names names;

  SensorReader(Settings settings, Names names) {
    this.settings = settings;
    this.names = names;
  }

  SensorsData read() {
    return new SensorsData(
        all("beams", "beam", this::beam),
        all("reeds", "reed", this::reed),
        all("blocks", "block", SensorReader::block),
        all("counters", "counter", this::counter),
        all("scales", "scale", this::scale),
        all("relays", "relay", SensorReader::relay));
  }

  private <T> List<T> all(String section, String kind, BiFunction<String, Settings, T> reader) {
    List<T> list = new ArrayList<>();
    settings
        .named(section)
        .forEach(
            (name, s) -> {
              names.part(kind, kind + ".", name, s);
              list.add(reader.apply(name, s));
            });
    return List.copyOf(list);
  }

  private BeamData beam(String name, Settings s) {
    BeamData beam =
        new BeamData(
            name,
            names.place(s, "position", s.number("width") / 2, "beam `" + name + "`"),
            s.text("kind").equals("reflective"),
            s.number("width"),
            s.number("p_on"),
            s.number("p_off"),
            s.text("output").equals("dark"),
            s.bool("gaps"),
            chain(s),
            s);
    if (beam.clearShare() >= beam.blockedShare()) {
      names
          .problems()
          .error(
              s,
              "p_off",
              "beam `" + name + "` clears at a share that already blocks it",
              "below p_on, " + beam.blockedShare(),
              "lower p_off or raise p_on");
    }
    return beam;
  }

  private ReedData reed(String name, Settings s) {
    ReedData reed =
        new ReedData(
            name,
            names.place(s, "position", s.number("release"), "reed `" + name + "`"),
            s.number("operate"),
            s.number("release"),
            s.number("closest"),
            chain(s),
            s);
    if (reed.releaseMetres() < reed.operateMetres()) {
      names
          .problems()
          .error(
              s,
              "release",
              "reed `" + name + "` would open where it still closes",
              "at least operate, " + reed.operateMetres() + " m",
              "a reed releases farther from the magnet than it operates");
    }
    if (reed.closestMetres() >= reed.operateMetres()) {
      names
          .problems()
          .error(
              s,
              "closest",
              "the magnet never comes near enough to close reed `" + name + "`",
              "below operate, " + reed.operateMetres() + " m",
              "lower closest or raise operate");
    }
    return reed;
  }

  private static BlockData block(String name, Settings s) {
    return new BlockData(
        name,
        s.text("kind").equals("relay"),
        s.number("threshold"),
        s.number("bias"),
        s.number("shunt"),
        chainOf(s),
        s);
  }

  private CounterData counter(String name, Settings s) {
    return new CounterData(
        name,
        names.place(s, "position", 0, "counter `" + name + "`"),
        micros(s.number("pulse")),
        s);
  }

  private ScaleData scale(String name, Settings s) {
    if (s.number("off") > s.number("on")) {
      names
          .problems()
          .error(
              s,
              "off",
              "scale `" + name + "` would open where it still closes",
              "at most on, " + s.number("on") + " kg",
              "lower off or raise on");
    }
    return new ScaleData(
        name,
        names.place(s, "from", 0, "scale `" + name + "`"),
        names.place(s, "to", 0, "scale `" + name + "`"),
        s.number("on"),
        s.number("off"),
        s.number("time_constant"),
        chain(s),
        s);
  }

  private static RelayData relay(String name, Settings s) {
    return new RelayData(
        name,
        micros(s.number("operate")),
        micros(s.number("release")),
        micros(s.number("bounce")),
        s);
  }

  private ChainData chain(Settings s) {
    ChainData chain = chainOf(s);
    ConditionerData c = chain.conditioner();
    if (c != null && c.pickUpVolts() >= Conditioner.settledVolts(c)) {
      names
          .problems()
          .error(
              c.at(),
              "pick_up",
              "this conditioner's relay would never operate",
              "a coil that picks up below "
                  + Names.tidy(Conditioner.settledVolts(c))
                  + " V, what its capacitor settles at",
              "lower pick_up or source_resistance, or raise volts");
    }
    return chain;
  }

  private static ChainData chainOf(Settings s) {
    return new ChainData(
        micros(s.number("on_delay")),
        micros(s.number("off_delay")),
        micros(s.number("jitter")),
        s.number("tolerance"),
        s.has("conditioner") ? conditioner(s.item("conditioner")) : null,
        s.has("terminal") ? terminal(s.item("terminal")) : null);
  }

  private static ConditionerData conditioner(Settings s) {
    double rated = s.number("rated_volts");
    return new ConditionerData(
        s.text("supply").equals("ac"),
        s.number("volts"),
        s.number("frequency"),
        s.number("diode_drop"),
        s.number("source_resistance"),
        s.number("capacitance"),
        s.number("coil_resistance"),
        s.number("pick_up") * rated,
        s.number("drop_out") * rated,
        micros(s.number("operate")),
        micros(s.number("release")),
        micros(s.number("bounce")),
        s);
  }

  private static TerminalData terminal(Settings s) {
    // IEC 61131-2, 24 V DC: "0" up to 5 V; "1" from 15 V (type 1) or 11 V (type 3) [second-hand]
    double on = s.text("type").equals("type_1") ? 15 : 11;
    return new TerminalData(5, on, s.number("volts"), s.number("time_constant"));
  }
}
