package bufferstop.modbus;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;

/** Resolves the names of a map and finds addresses taken twice. */
public final class MapLinker {
  private static final int ADDRESSES = 65_536;

  private final Scope scope;
  private final Diagnostics problems;

  private MapLinker(Scope scope, Diagnostics problems) {
    this.scope = scope;
    this.problems = problems;
  }

  /** The map with its types filled in; entries in doubt are left out after a diagnostic. */
  public static ModbusMap link(ModbusMap map, Scope field, Diagnostics problems) {
    List<Entry> entries = new MapLinker(field, problems).entries(map);
    return new ModbusMap(map.name(), map.host(), map.port(), map.unit(), entries, map.position());
  }

  private List<Entry> entries(ModbusMap map) {
    List<Entry> linked = new ArrayList<>();
    Entry[][] taken = new Entry[Table.values().length][];
    for (Entry entry : map.entries()) {
      Entry typed = typed(entry);
      if (typed != null && claim(map, typed, taken)) {
        linked.add(typed);
      }
    }
    return List.copyOf(linked);
  }

  private Entry typed(Entry entry) {
    Name name = entry.point();
    Symbol symbol = scope.find(name.text());
    if (symbol == null && problems.doubts(name.text())) {
      return null;
    }
    if (symbol == null) {
      problems.add(
          Diagnostic.error(name.position(), "no point named `" + name.text() + "`")
              .expected("a point, step, block output, alarm or plant port")
              .help(NearNames.question(name.text(), scope.names())));
      return null;
    }
    if (symbol.type() == Type.STRING) {
      problems.add(
          Diagnostic.error(
                  entry.position(), "`" + name.text() + "` is a STRING, which no map can carry")
              .expected("a BOOL, number, TIME, bit string or enumeration"));
      return null;
    }
    if (entry.table().isBit() && symbol.type() != Type.BOOL) {
      problems.add(
          Diagnostic.error(
                  entry.position(),
                  "`"
                      + name.text()
                      + "` is "
                      + symbol.type()
                      + " and does not fit a "
                      + entry.table().word())
              .expected("a BOOL")
              .help("put it in a holding_register or input_register"));
      return null;
    }
    return new Entry(
        name, entry.table(), entry.address(), symbol.type(), entry.order(), entry.position());
  }

  private boolean claim(ModbusMap map, Entry entry, Entry[][] taken) {
    int table = entry.table().ordinal();
    if (taken[table] == null) {
      taken[table] = new Entry[ADDRESSES];
    }
    if (entry.address() + entry.size() > ADDRESSES) {
      problems.add(
          Diagnostic.error(
                  entry.position(),
                  "`"
                      + entry.point().text()
                      + "` takes "
                      + entry.size()
                      + " registers and runs past the end of the table")
              .expected("an address up to " + (ADDRESSES - entry.size())));
      return false;
    }
    for (int i = entry.address(); i < entry.address() + entry.size(); i++) {
      if (taken[table][i] != null) {
        reportTaken(map, entry, i, taken[table]);
        return false;
      }
    }
    for (int i = entry.address(); i < entry.address() + entry.size(); i++) {
      taken[table][i] = entry;
    }
    return true;
  }

  private void reportTaken(ModbusMap map, Entry entry, int address, Entry[] taken) {
    Entry first = taken[address];
    String table = entry.table().word().replace('_', ' ');
    int free = free(taken, address, entry.size());
    String last = entry.size() == 1 ? "" : " to " + (free + entry.size() - 1);
    problems.add(
        Diagnostic.error(
                entry.position(),
                table + " " + address + " of map `" + map.name() + "` is taken twice")
            .note(
                first.position(),
                "by `" + first.point().text() + "`, " + first.type() + ", " + places(first))
            .help(
                free < 0
                    ? ""
                    : "next free: " + table + (last.isEmpty() ? " " : "s ") + free + last));
  }

  private static String places(Entry entry) {
    int last = entry.address() + entry.size() - 1;
    String unit = entry.table().isBit() ? "address" : "register";
    return entry.size() == 1
        ? unit + " " + entry.address()
        : unit + "s " + entry.address() + " to " + last;
  }

  /** First address from {@code from} on with {@code size} free ones, or -1. */
  private static int free(Entry[] taken, int from, int size) {
    int run = 0;
    for (int i = from; i < ADDRESSES; i++) {
      run = taken[i] == null ? run + 1 : 0;
      if (run == size) {
        return i - size + 1;
      }
    }
    return -1;
  }
}
