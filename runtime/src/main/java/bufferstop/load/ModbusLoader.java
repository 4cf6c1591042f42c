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
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads the {@code modbus} section. Types of points are filled in when names are resolved. */
final class ModbusLoader {
  private static final Set<String> MAPS = Set.of("hmi", "field", "plc");
  private static final Pattern ADDRESS = Pattern.compile("(.*):(\\d{1,5})");

  private final ProjectFiles files;
  private final Diagnostics problems;

  ModbusLoader(ProjectFiles files, Diagnostics problems) {
    this.files = files;
    this.problems = problems;
  }

  List<ModbusMap> read(Tree section) {
    List<ModbusMap> maps = new ArrayList<>();
    TableReader table = section == null ? null : TableReader.open(section, "modbus", problems);
    if (table == null) {
      return maps;
    }
    for (String name : List.of("hmi", "field", "plc")) {
      Tree tree = files.section(table.tree(name));
      TableReader reader = tree == null ? null : TableReader.open(tree, "a Modbus map", problems);
      if (reader != null) {
        ModbusMap map = map(name, reader);
        reader.finish();
        if (map != null) {
          maps.add(map);
        }
      }
    }
    table.finish(MAPS);
    return List.copyOf(maps);
  }

  private ModbusMap map(String name, TableReader reader) {
    SourceText address =
        reader.requiredText(name.equals("hmi") ? "listen" : "address", reader.position());
    int unit = (int) reader.whole("unit", 1, 0, 255);
    List<Entry> entries = entries(files.section(reader.required("map", reader.position())));
    if (address == null) {
      return null;
    }
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

  private List<Entry> entries(Tree tree) {
    List<Entry> entries = new ArrayList<>();
    if (tree != null && !(tree instanceof Tree.Items)) {
      problems.add(
          Diagnostic.error(tree.position(), "`map` is no list")
              .expected("a list of {point: , coil: } and the like"));
    }
    if (tree instanceof Tree.Items items) {
      for (Tree item : items.items()) {
        TableReader reader = TableReader.open(item, "a map entry", problems);
        Entry entry = reader == null ? null : entry(reader);
        if (entry != null) {
          entries.add(entry);
        }
      }
    }
    return List.copyOf(entries);
  }

  private Entry entry(TableReader reader) {
    Name point = reader.requiredName("point", reader.position());
    WordOrder order = reader.choice("word_order", WordOrder.class, WordOrder.HIGH_WORD_FIRST);
    List<Entry> found = new ArrayList<>();
    for (Table table : Table.values()) {
      String word = table.word().toLowerCase(Locale.ROOT);
      Tree tree = reader.tree(word);
      if (tree != null) {
        Position place = tree.position();
        int address = (int) reader.whole(word, 0, 0, 65535);
        if (point != null) {
          found.add(new Entry(point, table, address, Type.BOOL, order, place));
        }
      }
    }
    reader.finish();
    if (point != null && found.size() != 1) {
      problems.add(
          Diagnostic.error(
                  point.position(),
                  "`" + point.text() + "` stands in " + found.size() + " tables of this entry")
              .expected(
                  "exactly one of coil, discrete_input, holding_register, input_register with an"
                      + " address"));
    }
    return found.size() == 1 ? found.get(0) : null;
  }
}
