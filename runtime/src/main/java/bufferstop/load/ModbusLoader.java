package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Point;
import bufferstop.model.Serving;
import bufferstop.model.SourceText;
import bufferstop.model.SunSpecMeter;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Reads the {@code modbus} section. Types of points are filled in when names are resolved. */
final class ModbusLoader {
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
      TableReader reader =
          sections.table(modbus, name, name.equals("hmi") ? ModbusForms.HMI : ModbusForms.FACE);
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
    MapEntries map = map(reader, Coding.PLAIN);
    List<ModbusMap> further = further(name, reader, unit);
    List<String> named =
        Stream.concat(
                map.sections().stream(),
                further.stream().flatMap(m -> m.entries().stream()).map(Entry::section))
            .filter(s -> !s.isEmpty())
            .distinct()
            .toList();
    int panel = name.equals("hmi") ? (int) reader.whole("fault_panel", -1, 0, 255) : -1;
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
            reader.position()));
    for (ModbusMap more : further) {
      maps.add(
          new ModbusMap(
              more.name(),
              address.host(),
              address.port(),
              more.unit(),
              more.entries(),
              more.fixed(),
              more.meter(),
              serving.identifiedAs(more.serving().identification()),
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

  private MapEntries map(TableReader reader, Coding above) {
    MapEntryLoader loader = new MapEntryLoader(points, problems);
    Coding coding = loader.orders(reader, above);
    String expected = "a list of {point: , coil: } and the like";
    return loader.read(sections.list(reader, "map", expected), coding);
  }

  /** Further units: each with an identifier and a map of its own, addresses still unknown. */
  private List<ModbusMap> further(String face, TableReader reader, int first) {
    List<ModbusMap> maps = new ArrayList<>();
    Map<Integer, String> taken = new TreeMap<>(Map.of(first, face));
    for (Tree.Entry entry : sections.names(reader, "units", "further units by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader own = TableReader.open(entry, ModbusForms.UNIT, problems);
      if (own == null) {
        continue;
      }
      own.required("unit");
      int unit = (int) own.whole("unit", -1, 0, 255);
      SunSpecMeter meter = null;
      MapEntries map = MapEntries.NONE;
      if (own.has("sunspec")) {
        own.belongs("map", "units without `sunspec`, which makes the map");
        meter = new SunSpecLoader(sections, problems).read(own);
      } else {
        own.required("map");
        map = map(own, Coding.PLAIN);
      }
      Map<Integer, String> identification =
          new ServingLoader(sections, problems, project).identification(own);
      own.finish();
      if (unit >= 0 && taken.putIfAbsent(unit, entry.key().text()) != null) {
        problems.add(
            Diagnostic.error(
                    Code.ADDRESS_TAKEN,
                    own.tree("unit").position(),
                    "unit " + unit + " is `" + taken.get(unit) + "` already")
                .expected("another identifier for each unit behind a listener"));
      } else if (unit >= 0 && named) {
        maps.add(
            new ModbusMap(
                face + "." + entry.key().text(),
                "",
                -1,
                unit,
                map.entries(),
                map.gaps(),
                meter,
                Serving.STANDARD.identifiedAs(identification),
                own.position()));
      }
    }
    return maps;
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
