package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Point;
import bufferstop.model.Polling;
import bufferstop.model.Serving;
import bufferstop.model.SourceText;
import bufferstop.model.SunSpecMeter;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Tree;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Reads the {@code modbus} section. Types of points are filled in when names are resolved. */
final class ModbusLoader {
  private static final List<String> POLLING =
      List.of(
          "cycle",
          "timeout",
          "answer",
          "refresh",
          "on_loss",
          "watchdog",
          "when_quiet",
          "heartbeat");

  private final Sections sections;
  private final Diagnostics problems;
  private final List<Point> points;
  private final String project;

  /**
   * @param points of the controller, for entries that mean all of a kind
   * @param project name of the project, which its clients can ask for
   */
  ModbusLoader(Sections sections, List<Point> points, String project, Diagnostics problems) {
    this.sections = sections;
    this.points = points;
    this.project = project;
    this.problems = problems;
  }

  /** The maps of the section, a face followed by its further units; none without a section. */
  List<ModbusMap> read(TableReader modbus) {
    List<ModbusMap> maps = new ArrayList<>();
    if (modbus == null) {
      return maps;
    }
    for (String name : List.of("hmi", "field", "plc")) {
      TableReader reader = sections.table(modbus, name, ModbusForms.face(name));
      if (reader != null) {
        maps.addAll(face(name, reader));
      }
    }
    modbus.finish();
    return List.copyOf(maps);
  }

  private List<ModbusMap> face(String name, TableReader reader) {
    HostAndPort address = address(name.equals("hmi"), reader);
    int unit = (int) reader.whole("unit", 1, 0, 255);
    reader.required("map");
    MapEntries map = map(name, name, reader);
    Polling polling = polling(name, reader, Polling.STANDARD);
    List<ModbusMap> further = further(name, reader, unit, polling);
    List<String> named =
        Stream.concat(
                map.sections().stream(),
                further.stream().flatMap(m -> m.entries().stream()).map(Entry::section))
            .filter(s -> !s.isEmpty())
            .distinct()
            .toList();
    int panel = name.equals("plc") ? -1 : (int) reader.whole("fault_panel", -1, 0, 255);
    Serving serving = new ServingLoader(sections, problems, project).read(reader, named);
    reader.finish();
    List<ModbusMap> maps = new ArrayList<>();
    if (address == null) {
      return maps;
    }
    maps.add(
        new ModbusMap(
            name,
            address.host(),
            address.port(),
            unit,
            map.entries(),
            map.gaps(),
            null,
            serving,
            polling,
            reader.position()));
    for (ModbusMap more : further) {
      boolean own = !more.host().isEmpty();
      maps.add(
          new ModbusMap(
              more.name(),
              own ? more.host() : address.host(),
              own ? more.port() : address.port(),
              more.unit(),
              more.entries(),
              more.fixed(),
              more.meter(),
              serving.identifiedAs(more.serving().identification()),
              more.polling(),
              more.position()));
    }
    if (panel >= 0) {
      maps.add(panel(name, panel, address, serving, maps, reader));
    }
    return maps;
  }

  /** The unit of the fault panel, whose entries are known when the rig is put together. */
  private ModbusMap panel(
      String face,
      int unit,
      HostAndPort address,
      Serving serving,
      List<ModbusMap> others,
      TableReader reader) {
    for (ModbusMap other : others) {
      if (other.unit() == unit) {
        problems.add(
            Diagnostic.error(
                    Code.ADDRESS_TAKEN,
                    reader.tree("fault_panel").position(),
                    "unit " + unit + " is `" + other.name() + "` already")
                .expected("another identifier for each unit behind a listener"));
      }
    }
    return new ModbusMap(
        face + ModbusMap.FAULT_PANEL,
        address.host(),
        address.port(),
        unit,
        List.of(),
        List.of(),
        null,
        serving,
        reader.position());
  }

  private MapEntries map(String face, String device, TableReader reader) {
    List<Point> meant =
        face.equals("field") ? points.stream().filter(p -> isOn(p, device)).toList() : points;
    MapEntryLoader loader = new MapEntryLoader(meant, written(face), problems);
    Coding coding = loader.orders(reader, Coding.PLAIN);
    String expected = "a list of {point: , coil: } and the like";
    return loader.read(sections.list(reader, "map", expected), coding);
  }

  /** Whether a point is on a device of the field: on its node, or on none for the first. */
  private static boolean isOn(Point point, String device) {
    return point.node() == null
        ? device.equals("field")
        : point.node().text().equalsIgnoreCase(device);
  }

  /** Who writes the points of a face: an HMI its operator points, we outputs of remote I/O. */
  private static Kind written(String face) {
    return switch (face) {
      case "field" -> Kind.OUTPUT;
      case "plc" -> Kind.INPUT;
      default -> Kind.OPERATOR;
    };
  }

  /** How a device of the face is asked; what is not given is as {@code above}. */
  private Polling polling(String face, TableReader reader, Polling above) {
    if (face.equals("hmi")) {
      POLLING.forEach(key -> reader.belongs(key, "the maps field and plc"));
      return above;
    }
    long cycle = reader.time("cycle", above.cycleMicros(), 1000);
    long timeout = reader.time("timeout", Math.max(above.timeoutMicros(), 2 * cycle), 1000);
    if (timeout <= cycle) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  reader.text(reader.has("timeout") ? "timeout" : "cycle").whole(),
                  "the device would be lost after %s, before its next cycle of %s"
                      .formatted(Values.time(timeout), Values.time(cycle)))
              .expected("`timeout` longer than `cycle`"));
    }
    Polling.WhenQuiet whenQuiet =
        reader.choice("when_quiet", Polling.WhenQuiet.class, above.whenQuiet());
    if (whenQuiet == Polling.WhenQuiet.PAUSE && reader.has("heartbeat")) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  reader.tree("heartbeat").position(),
                  "time that stands still sees no heartbeat, and so would never go on")
              .expected("`when_quiet: safe` or `hold` with a heartbeat"));
    }
    return new Polling(
        cycle,
        reader.time("answer", above.answerMicros(), 1000),
        timeout,
        reader.time("refresh", above.refreshMicros(), 1000),
        reader.choice("on_loss", Field.OnLoss.class, above.onLoss()),
        reader.time("watchdog", above.watchdogMicros(), 0),
        whenQuiet,
        reader.has("heartbeat") ? reader.name("heartbeat") : above.heartbeat());
  }

  /** Further units: each with an identifier and a map of its own. */
  private List<ModbusMap> further(String face, TableReader reader, int first, Polling above) {
    List<ModbusMap> maps = new ArrayList<>();
    Map<String, String> taken = new TreeMap<>(Map.of(" " + first, face));
    for (Tree.Entry entry : sections.names(reader, "units", "further units by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader own =
          TableReader.open(
              entry, face.equals("hmi") ? ModbusForms.UNIT : ModbusForms.DEVICE, problems);
      if (own == null) {
        continue;
      }
      own.required("unit");
      int unit = (int) own.whole("unit", -1, 0, 255);
      SunSpecMeter meter = null;
      MapEntries map = MapEntries.NONE;
      if (face.equals("hmi") && own.has("sunspec")) {
        own.belongs("map", "units without `sunspec`, which makes the map");
        meter = new SunSpecLoader(sections, problems).read(own);
      } else {
        own.required("map");
        map = map(face, entry.key().text(), own);
      }
      Polling polling = polling(face, own, above);
      HostAndPort address = ownAddress(face, own);
      Map<Integer, String> identification =
          new ServingLoader(sections, problems, project).identification(own);
      own.finish();
      if (address == null) {
        continue;
      }
      String place = (address == HostAndPort.NONE ? "" : address.host() + ":" + address.port());
      String before = taken.putIfAbsent(place + " " + unit, entry.key().text());
      if (unit >= 0 && before != null) {
        problems.add(
            Diagnostic.error(
                    Code.ADDRESS_TAKEN,
                    own.tree("unit").position(),
                    "unit " + unit + " is `" + before + "` already")
                .expected("another identifier for each unit behind a listener"));
      } else if (unit >= 0 && named) {
        maps.add(
            new ModbusMap(
                face + "." + entry.key().text(),
                address.host(),
                address.port(),
                unit,
                map.entries(),
                map.gaps(),
                meter,
                Serving.STANDARD.identifiedAs(identification),
                polling,
                own.position()));
      }
    }
    return maps;
  }

  /** A device may be elsewhere than the first; nowhere when it does not say, null when wrongly. */
  private HostAndPort ownAddress(String face, TableReader unit) {
    if (face.equals("hmi")) {
      unit.belongs("address", "the units of field and plc");
      return HostAndPort.NONE;
    }
    SourceText text = unit.text("address");
    HostAndPort address = text == null ? null : HostAndPort.read(text, problems);
    return text == null ? HostAndPort.NONE : address;
  }

  /** Null after a diagnostic. */
  private HostAndPort address(boolean hmi, TableReader reader) {
    String key = hmi ? "listen" : "address";
    String other = hmi ? "address" : "listen";
    reader.belongs(other, hmi ? "the maps field and plc" : "the map hmi");
    boolean secureAlone = reader.has("secure") && !reader.has(key);
    if (secureAlone) {
      reader.tree(key);
      return HostAndPort.NONE;
    }
    SourceText text = reader.has(other) ? reader.text(key) : reader.requiredText(key);
    return text == null ? null : HostAndPort.read(text, problems);
  }
}
