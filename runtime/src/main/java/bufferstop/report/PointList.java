package bufferstop.report;

import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.Point;
import bufferstop.model.Scope;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;

/** The I/O list and the Modbus maps: one row for each point and map it appears in. */
public final class PointList {
  private static final List<String> COLUMNS =
      List.of(
          "name",
          "kind",
          "type",
          "map",
          "unit_id",
          "table",
          "address",
          "words",
          "word_order",
          "access",
          "initial",
          "safe",
          "supply",
          "terminal",
          "unit",
          "text");

  private final List<ModbusMap> maps;
  private final Map<String, Point> points = new TreeMap<>();
  private final List<List<String>> rows = new ArrayList<>();

  /**
   * @param points declared points
   * @param maps with their types
   * @param field every observable name
   * @param observable in the order in which rows are wanted
   * @param listed which kinds get rows
   */
  public PointList(
      List<Point> points,
      List<ModbusMap> maps,
      Scope field,
      List<Symbol> observable,
      Predicate<Kind> listed) {
    this.maps = maps;
    points.forEach(p -> this.points.put(p.name().toLowerCase(Locale.ROOT), p));
    for (Point point : points) {
      Symbol symbol = field.find(point.name());
      boolean command = point.name().contains("."); // of an alarm: there are many, few are used
      if (listed.test(point.kind()) && (!command || isMapped(symbol))) {
        addRows(symbol);
      }
    }
    for (Symbol symbol : observable) {
      boolean derived = !this.points.containsKey(symbol.name().toLowerCase(Locale.ROOT));
      boolean wanted = derived && listed.test(symbol.kind());
      if (wanted && (symbol.kind() == Kind.PLANT_PORT || isMapped(symbol))) {
        addRows(symbol);
      }
    }
  }

  private boolean isMapped(Symbol symbol) {
    return maps.stream()
        .flatMap(m -> m.entries().stream())
        .anyMatch(e -> e.point().text().equalsIgnoreCase(symbol.name()));
  }

  private void addRows(Symbol symbol) {
    int before = rows.size();
    for (ModbusMap map : maps) {
      for (Entry entry : map.entries()) {
        if (entry.point().text().equalsIgnoreCase(symbol.name())) {
          rows.add(row(symbol, map, entry));
        }
      }
    }
    if (rows.size() == before) {
      rows.add(row(symbol, null, null));
    }
  }

  private List<String> row(Symbol symbol, ModbusMap map, Entry entry) {
    Point point = points.get(symbol.name().toLowerCase(Locale.ROOT));
    boolean register = entry != null && !entry.table().isBit();
    boolean written = entry != null && entry.table().isWritable() && symbol.kind() == Kind.OPERATOR;
    return Arrays.asList(
        symbol.name(),
        symbol.kind().words(),
        type(symbol, entry),
        map == null ? "" : map.name(),
        map == null ? "" : Integer.toString(map.unit()),
        entry == null ? "" : entry.table().word(),
        entry == null ? "" : address(entry),
        register ? Integer.toString(entry.size()) : "",
        register ? orders(entry) : "",
        entry == null ? "" : written ? "read-write" : "read",
        initial(point),
        point != null && point.kind() == Kind.OUTPUT
            ? Values.print(point.type(), point.enumeration(), point.safe())
            : "",
        point == null || point.supply() == null ? "" : point.supply().text(),
        point == null ? "" : point.terminal(),
        unit(symbol, entry),
        symbol.text());
  }

  private static Scale scale(Entry entry) {
    return entry == null ? null : entry.coding().scale();
  }

  /** The point's type, and that of the number that stands for it. */
  private static String type(Symbol symbol, Entry entry) {
    Scale scale = scale(entry);
    return symbol.typeName() + (scale == null ? "" : " as " + scale.as());
  }

  /** The unit, with what one step of a scaled number is worth. */
  private static String unit(Symbol symbol, Entry entry) {
    Scale scale = scale(entry);
    boolean milli = scale != null && symbol.type() == Type.TIME;
    String unit = milli ? "ms" : symbol.unit();
    if (scale == null || scale.factor() == 1 && !milli) {
      return unit;
    }
    String step =
        new BigDecimal(Double.toString(scale.factor())).stripTrailingZeros().toPlainString();
    return (step + " " + unit).strip();
  }

  /** The address, for a bit in a register followed by that of the bit. */
  private static String address(Entry entry) {
    String address = Integer.toString(entry.address());
    return entry.bit() == ModbusMap.WHOLE ? address : address + "." + entry.bit();
  }

  /** The order of words where there are several; that of bytes where it is not the standard's. */
  private static String orders(Entry entry) {
    boolean ordered = entry.size() > 1 && entry.type() != Type.STRING;
    String words = ordered ? entry.coding().words().word() : "";
    ByteOrder bytes = entry.coding().bytes();
    boolean usual = bytes == ByteOrder.HIGH_BYTE_FIRST || entry.bit() != ModbusMap.WHOLE;
    return usual ? words : (words + " " + bytes.word()).strip();
  }

  private static String initial(Point point) {
    boolean has = point != null && (point.kind() == Kind.OPERATOR || point.kind() == Kind.INTERNAL);
    if (has && point.type() == Type.STRING) {
      return StringCells.literal(point.initialText());
    }
    return has ? Values.print(point.type(), point.enumeration(), point.initial()) : "";
  }

  /** As CSV, RFC 4180. */
  public String csv() {
    return grid().csv();
  }

  /** As a Markdown table; columns without any value are left out. */
  public String markdown() {
    return grid().markdown();
  }

  /** As aligned columns; columns without any value are left out. */
  public String table() {
    return grid().table();
  }

  private Grid grid() {
    return new Grid(COLUMNS, rows);
  }
}
