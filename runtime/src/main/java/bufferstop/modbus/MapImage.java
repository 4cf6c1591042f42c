package bufferstop.modbus;

import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Point;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Where each address of a map finds its cell. Built once, before the first scan; immutable. */
public final class MapImage {
  private static final int ADDRESSES = 65_536;

  private final String name;
  private final Map<Table, AddressTable> tables = new EnumMap<>(Table.class);

  private MapImage(String name) {
    this.name = name;
  }

  /**
   * Resolves a map.
   *
   * @param map without errors and with all addresses, as the linker leaves it
   * @param scope what the map's names mean, usually {@code Layout.field()}
   * @param writable points that clients may write where they stand in a coil or holding register;
   *     everything else is read only
   * @throws IllegalArgumentException if an entry overlaps another, names nothing, or gives a type
   *     that is not the value's or does not fit its table; the message tells which
   */
  public static MapImage of(ModbusMap map, Scope scope, Collection<Point> writable) {
    Map<String, Point> byName = new TreeMap<>();
    writable.forEach(point -> byName.put(point.name().toLowerCase(Locale.ROOT), point));
    MapImage image = new MapImage(map.name());
    for (Table table : Table.values()) {
      List<Slot> slots = new ArrayList<>();
      Map<Integer, List<BitsSlot.Part>> parts = new TreeMap<>();
      for (Entry entry : map.entries()) {
        if (entry.table() == table) {
          add(entry, symbol(entry, scope), byName, slots, parts);
        }
      }
      parts.forEach((at, bits) -> slots.add(new BitsSlot(at, bits.toArray(BitsSlot.Part[]::new))));
      for (Fixed fixed : map.fixed()) {
        if (fixed.table() == table) {
          slots.add(new FixedSlot(fixed));
        }
      }
      image.tables.put(table, table(map, table, slots));
    }
    return image;
  }

  private static Symbol symbol(Entry entry, Scope scope) {
    String name = entry.point().text();
    Symbol symbol = scope.find(name);
    if (symbol == null) {
      throw new IllegalArgumentException("no value named `" + name + "`");
    }
    if (symbol.type() != entry.type() || symbol.length() != entry.length()) {
      throw new IllegalArgumentException(
          "`" + name + "` is " + symbol.typeName() + ", mapped as " + entry.type());
    }
    boolean bit = entry.table().isBit() || entry.bit() != ModbusMap.WHOLE;
    if (bit && entry.type() != Type.BOOL) {
      throw new IllegalArgumentException(
          "`" + name + "` is " + entry.type() + ", which does not fit one bit");
    }
    if (entry.address() < 0 || entry.address() + entry.size() > ADDRESSES) {
      throw new IllegalArgumentException("`" + name + "` lies outside addresses 0 to 65535");
    }
    return symbol;
  }

  private static void add(
      Entry entry,
      Symbol symbol,
      Map<String, Point> writable,
      List<Slot> slots,
      Map<Integer, List<BitsSlot.Part>> parts) {
    Point found = writable.get(symbol.name().toLowerCase(Locale.ROOT));
    Point point = entry.table().isWritable() ? found : null;
    int cell = symbol.index();
    if (entry.bit() != ModbusMap.WHOLE) {
      parts
          .computeIfAbsent(entry.address(), at -> new ArrayList<>())
          .add(new BitsSlot.Part(entry.bit(), cell, entry.section(), point));
      return;
    }
    if (entry.type() == Type.STRING) {
      slots.add(
          new TextSlot(
              entry.address(),
              cell,
              entry.length(),
              entry.coding().bytes(),
              entry.section(),
              point != null));
      return;
    }
    slots.add(
        new ValueSlot(
            entry.address(),
            entry.size(),
            cell,
            entry.type(),
            entry.coding(),
            entry.section(),
            point));
  }

  private static AddressTable table(ModbusMap map, Table table, List<Slot> slots) {
    slots.sort(Comparator.comparingInt(Slot::address));
    for (int i = 1; i < slots.size(); i++) {
      if (slots.get(i - 1).end() > slots.get(i).address()) {
        throw new IllegalArgumentException(
            table.word()
                + " "
                + slots.get(i).address()
                + " of map `"
                + map.name()
                + "` is taken twice");
      }
    }
    return new AddressTable(slots);
  }

  /** Name of the map. */
  public String name() {
    return name;
  }

  AddressTable table(Table table) {
    return tables.get(table);
  }
}
