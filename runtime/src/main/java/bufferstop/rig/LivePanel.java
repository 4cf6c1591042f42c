package bufferstop.rig;

import bufferstop.image.Forces;
import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import bufferstop.plant.FaultPanel;
import bufferstop.plant.FaultPanel.Possible;
import bufferstop.plant.Switch;
import bufferstop.scenario.DeedText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

/**
 * The faults and forces of a rig as points that a Modbus client can write and read: {@code
 * faults.wire.NAME.MODE} throws a fault and falls when it is over, {@code .active} tells; {@code
 * forces.NAME} forces an input or output to {@code forces.NAME.value}. What is written acts with
 * the next scan. Runs between scans, in every use of a rig, so that a replay does what was done.
 */
final class LivePanel {
  private static final Position HERE = Position.ofFile("");
  private static final ValueType BOOL = ValueType.of(Type.BOOL);
  private static final ValueType REAL = ValueType.of(Type.REAL);

  private record FaultRow(Possible fault, int on, int active, int value) {}

  private record ForceRow(Symbol target, int on, int active, int value) {}

  private final FaultPanel faults;
  private final Forces forces;
  private final List<FaultRow> faultRows;
  private final List<ForceRow> forceRows;
  private final boolean[] faultShown;
  private final boolean[] forceShown;
  private Consumer<String> told = text -> {};

  private LivePanel(Points points, Forces forces) {
    this.faults = points.faults;
    this.forces = forces;
    faultRows = List.copyOf(points.faultRows);
    forceRows = List.copyOf(points.forceRows);
    faultShown = new boolean[faultRows.size()];
    forceShown = new boolean[forceRows.size()];
  }

  /** Takes what is thrown and cleared here, as a deed is written. */
  void tellTo(Consumer<String> sink) {
    told = sink;
  }

  /** The points of a panel, declared before a run. */
  static final class Points {
    private final Layout layout;
    private final FaultPanel faults;
    private final List<FaultRow> faultRows = new ArrayList<>();
    private final List<ForceRow> forceRows = new ArrayList<>();
    private final List<Point> writable = new ArrayList<>();
    private final List<Entry> entries = new ArrayList<>();
    private int bits; // next free address
    private int registers;

    /**
     * @param layout everything else being declared
     */
    Points(Layout layout, FaultPanel faults) {
      this.layout = layout;
      this.faults = faults;
      for (Possible fault : faults.possible()) {
        declare(fault);
      }
      for (Symbol symbol : layout.observable()) {
        if (DeedLinker.isForceable(symbol)) {
          declare(symbol);
        }
      }
    }

    private void declare(Possible fault) {
      String place = fault.place().name().toLowerCase(Locale.ROOT);
      String name = "faults." + place + "." + fault.name() + "." + fault.mode();
      String text = "throws " + fault.mode() + " on " + place + " " + fault.name();
      int on = writable(name, BOOL, text, 0, Table.COIL, bits);
      int active = status(name + ".active", "whether it is on", bits++);
      int value = -1;
      if (!Double.isNaN(fault.value())) {
        long bits = Double.doubleToLongBits((float) fault.value());
        String unit = fault.unit().isEmpty() ? "" : ", " + fault.unit();
        value =
            writable(
                name + ".value", REAL, "how much" + unit, bits, Table.HOLDING_REGISTER, registers);
        registers += 2;
      }
      faultRows.add(new FaultRow(fault, on, active, value));
    }

    private void declare(Symbol symbol) {
      String name = "forces." + symbol.name();
      int on = writable(name, BOOL, "forces " + symbol.name(), 0, Table.COIL, bits);
      int active = status(name + ".active", "whether it is forced", bits++);
      Table table = Table.HOLDING_REGISTER;
      ValueType type = new ValueType(symbol.type(), symbol.enumeration(), 0, null);
      int value = writable(name + ".value", type, "to this", 0, table, registers);
      registers += entries.get(entries.size() - 1).size();
      forceRows.add(new ForceRow(symbol, on, active, value));
    }

    private int writable(
        String name, ValueType of, String text, long initial, Table table, int address) {
      writable.add(Point.operator(name, of, text, initial, false, HERE));
      entry(name, of.type(), table, address);
      return layout
          .add(
              name,
              of.type(),
              Kind.OPERATOR,
              Seen.BY_FIELD,
              "",
              text,
              HERE,
              of.enumeration(),
              of.length())
          .index();
    }

    private int status(String name, String text, int address) {
      entry(name, Type.BOOL, Table.DISCRETE_INPUT, address);
      return layout.add(name, Type.BOOL, Kind.INTERNAL, Seen.BY_FIELD, "", text, HERE).index();
    }

    private void entry(String name, Type type, Table table, int address) {
      WordOrder order = WordOrder.HIGH_WORD_FIRST;
      entries.add(new Entry(new Name(name, HERE), table, address, type, order, HERE));
    }

    /** What a client may write. */
    List<Point> writable() {
      return writable;
    }

    /** Where it finds them. */
    List<Entry> entries() {
      return entries;
    }

    /** The panel at work; the image begins with the values that faults usually have. */
    LivePanel start(long[] cells, Forces forces) {
      for (Point point : writable) {
        cells[layout.field().find(point.name()).index()] = point.initial();
      }
      return new LivePanel(this, forces);
    }
  }

  /** After each scan: does what was written, shows what is on. */
  void step(long[] cells) {
    for (int i = 0; i < faultShown.length; i++) {
      FaultRow row = faultRows.get(i);
      boolean wanted = cells[row.on] != 0;
      if (wanted != faultShown[i]) {
        act(row, wanted, cells);
      }
      faultShown[i] = row.fault.active().getAsBoolean();
      cells[row.on] = faultShown[i] ? 1 : 0;
      cells[row.active] = cells[row.on];
    }
    for (int i = 0; i < forceShown.length; i++) {
      ForceRow row = forceRows.get(i);
      int cell = row.target.index();
      boolean wanted = cells[row.on] != 0;
      boolean changed =
          wanted && forces.isForced(cell) && forces.apply(cell, 0) != cells[row.value];
      if (wanted != forceShown[i] || changed && forceShown[i]) {
        force(row, wanted, cells);
      }
      forceShown[i] = forces.isForced(cell);
      cells[row.on] = forceShown[i] ? 1 : 0;
      cells[row.active] = cells[row.on];
      if (forceShown[i]) {
        cells[row.value] = forces.apply(cell, 0);
      }
    }
  }

  private void act(FaultRow row, boolean wanted, long[] cells) {
    Fault fault = fault(row, cells);
    if (wanted) {
      Switch set = faults.prepare(fault, new Diagnostics());
      if (set != null) {
        set.act(cells);
        told.accept(DeedText.fault(fault));
      }
    } else if (row.fault.active().getAsBoolean()) {
      row.fault.ending().run();
      told.accept("end of " + DeedText.fault(fault));
    }
  }

  private static Fault fault(FaultRow row, long[] cells) {
    double value = row.value < 0 ? 0 : Double.longBitsToDouble(cells[row.value]);
    return new Fault(
        new Fault.Target(row.fault.place(), new Name(row.fault.name(), HERE)),
        new Name(row.fault.mode(), HERE),
        row.value < 0 ? null : SourceText.of(Double.toString(value)),
        0);
  }

  private void force(ForceRow row, boolean wanted, long[] cells) {
    String name = row.target.name();
    if (wanted) {
      long bits = cells[row.value];
      forces.set(row.target.index(), bits);
      told.accept("force: {" + name + ": " + DeedText.literal(row.target, bits) + "}");
    } else {
      forces.clear(row.target.index());
      told.accept("unforce: " + name);
    }
  }
}
