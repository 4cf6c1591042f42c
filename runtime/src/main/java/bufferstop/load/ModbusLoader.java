package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Reads the {@code modbus} section. Types of points are filled in when names are resolved. */
final class ModbusLoader {
  private static final Pattern ADDRESS = Pattern.compile("(\\S+):(\\d{1,5})");
  private static final List<String> TABLES = Stream.of(Table.values()).map(t -> t.word()).toList();

  private final Sections sections;
  private final Diagnostics problems;

  ModbusLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /** The maps of the section; none without a section. */
  List<ModbusMap> read(TableReader modbus) {
    List<ModbusMap> maps = new ArrayList<>();
    if (modbus == null) {
      return maps;
    }
    for (String name : List.of("hmi", "field", "plc")) {
      TableReader reader = sections.table(modbus, name, "a Modbus map");
      ModbusMap map = reader == null ? null : map(name, reader);
      if (map != null) {
        maps.add(map);
      }
    }
    modbus.finish();
    return List.copyOf(maps);
  }

  private ModbusMap map(String name, TableReader reader) {
    SourceText address = address(name.equals("hmi"), reader);
    int unit = (int) reader.whole("unit", 1, 0, 255);
    reader.required("map");
    List<Entry> entries = new ArrayList<>();
    for (Tree item : sections.list(reader, "map", "a list of {point: , coil: } and the like")) {
      TableReader entryReader = TableReader.open(item, "a map entry", problems);
      Entry entry = entryReader == null ? null : entry(entryReader);
      if (entry != null) {
        entries.add(entry);
      }
    }
    reader.finish();
    return address == null ? null : map(name, address, unit, List.copyOf(entries), reader);
  }

  private static SourceText address(boolean hmi, TableReader reader) {
    String key = hmi ? "listen" : "address";
    String other = hmi ? "address" : "listen";
    reader.belongs(other, hmi ? "the maps field and plc" : "the map hmi");
    return reader.has(other) ? reader.text(key) : reader.requiredText(key);
  }

  private ModbusMap map(
      String name, SourceText address, int unit, List<Entry> entries, TableReader reader) {
    Matcher matcher = ADDRESS.matcher(address.value());
    boolean good = matcher.matches() && !matcher.group(1).isEmpty();
    int port = good ? Integer.parseInt(matcher.group(2)) : -1;
    if (port < 0 || port > 65535) {
      problems.add(
          Diagnostic.error(address.whole(), "`" + address.value() + "` is no address")
              .expected("host:port, port from 0 to 65535, for instance 127.0.0.1:1502"));
      return null;
    }
    return new ModbusMap(name, matcher.group(1), port, unit, entries, reader.position());
  }

  private Entry entry(TableReader reader) {
    Name point = reader.requiredName("point");
    WordOrder order = reader.choice("word_order", WordOrder.class, WordOrder.HIGH_WORD_FIRST);
    List<String> given = reader.given(TABLES);
    int address = given.size() == 1 ? (int) reader.whole(given.get(0), -1, 0, 65535) : -1;
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  point == null ? reader.at() : point.position(),
                  given.isEmpty()
                      ? "this entry names no table"
                      : "this entry names several tables: " + String.join(", ", given))
              .expected("exactly one of " + String.join(", ", TABLES) + ", with an address"));
    }
    if (point == null || address < 0) {
      return null;
    }
    Table table = Table.valueOf(given.get(0).toUpperCase(Locale.ROOT));
    Position place = reader.tree(given.get(0)).position();
    return new Entry(point, table, address, Type.BOOL, order, place);
  }
}
