package bufferstop.modbus;

import bufferstop.model.ArrayBounds;
import bufferstop.model.ArrayOf;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;

/** Resolves the names of a map, gives automatic addresses, and finds addresses taken twice. */
public final class MapLinker {
  private final Scope scope;
  private final Diagnostics problems;

  private MapLinker(Scope scope, Diagnostics problems) {
    this.scope = scope;
    this.problems = problems;
  }

  /**
   * The map with its types and addresses filled in; entries in doubt are left out after a
   * diagnostic.
   */
  public static ModbusMap link(ModbusMap map, Scope field, Diagnostics problems) {
    if (map.meter() != null) {
      return SunSpecMap.of(map, field, problems);
    }
    MapLinker linker = new MapLinker(field, problems);
    List<Entry> typed = new ArrayList<>();
    for (Entry entry : map.entries()) {
      linker.add(entry, typed);
    }
    return map.with(new Placement(map, problems).place(typed));
  }

  private void add(Entry entry, List<Entry> typed) {
    Name name = entry.point();
    Symbol symbol = scope.find(name.text());
    ArrayOf array = symbol == null ? scope.array(name.text()) : null;
    if (array != null) {
      addElements(entry, array.bounds(), typed);
    } else if (symbol == null) {
      if (!problems.doubts(name.text())) {
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_NAME, name.position(), "no point named `" + name.text() + "`")
                .expected("a point, step, block output, alarm or plant port")
                .help(NearNames.question(name.text(), scope.names())));
      }
    } else if (fits(entry, symbol)) {
      typed.add(entry.of(symbol));
    }
  }

  /** All elements, one after another from the entry's address on. */
  private void addElements(Entry entry, ArrayBounds bounds, List<Entry> typed) {
    if (entry.bit() != ModbusMap.WHOLE) {
      problems.add(
          Diagnostic.error(
                  Code.DOES_NOT_FIT_TABLE,
                  entry.point().position(),
                  "`bit` with the array `" + bounds.name() + "`")
              .expected("`bit` with one of its elements")
              .help("name `" + bounds.element(bounds.least()) + "` and so on"));
      return;
    }
    int address = entry.address();
    for (int i = bounds.least(); i <= bounds.greatest(); i++) {
      Symbol element = scope.find(bounds.element(i));
      Entry placed = entry.of(element).at(address);
      if (!fits(placed, element)) {
        return; // the others would say the same
      }
      typed.add(placed);
      address = address == ModbusMap.AUTO ? ModbusMap.AUTO : address + placed.size();
    }
  }

  private boolean fits(Entry entry, Symbol symbol) {
    boolean bit = entry.table().isBit() || entry.bit() != ModbusMap.WHOLE;
    String is = "`" + entry.point().text() + "` is " + symbol.typeName();
    if (bit && symbol.type() != Type.BOOL) {
      String where = entry.table().isBit() ? entry.table().word() : "bit";
      problems.add(
          Diagnostic.error(
                  Code.DOES_NOT_FIT_TABLE, entry.position(), is + " and does not fit a " + where)
              .expected("a BOOL")
              .help("put it in a holding_register or input_register"));
      return false;
    }
    boolean scaled = entry.coding().scale() != null;
    if (scaled && !symbol.type().isNumber() && symbol.type() != Type.TIME) {
      problems.add(
          Diagnostic.error(
                  Code.DOES_NOT_FIT_TABLE, entry.point().position(), is + " and cannot be scaled")
              .expected("a number or a TIME")
              .help("leave out `as`"));
      return false;
    }
    return true;
  }
}
