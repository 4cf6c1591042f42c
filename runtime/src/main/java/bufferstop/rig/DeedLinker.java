package bufferstop.rig;

import bufferstop.image.WriteRequest;
import bufferstop.model.Code;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.plant.Switch;
import bufferstop.scenario.Target.Prepared;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.LongConsumer;

/** Resolves what is done to a rig, by a scenario or by hand. */
final class DeedLinker {
  private final Rig rig;
  private final LongConsumer skip; // null where time cannot be skipped

  /**
   * @param skip lets the next scan come so many periods late
   */
  DeedLinker(Rig rig, LongConsumer skip) {
    this.rig = rig;
    this.skip = skip;
  }

  /** The deed ready to be done; null after a diagnostic. */
  Prepared prepare(Deed deed, Diagnostics problems) {
    if (deed instanceof Scenario.Write write) {
      return prepareWrite(write, problems);
    } else if (deed instanceof Scenario.Press press) {
      boolean stays = rig.field().desk().isLatching(press.element());
      Switch down = rig.field().desk().press(press.element(), problems);
      Switch up =
          stays || down == null ? null : rig.field().desk().release(press.element(), problems);
      return prepared(down, up, press.forMicros());
    } else if (deed instanceof Scenario.Turn turn) {
      return prepared(rig.field().desk().turn(turn.element(), turn.to(), problems), null, 0);
    } else if (deed instanceof Scenario.Release release) {
      return prepared(rig.field().desk().release(release.element(), problems), null, 0);
    } else if (deed instanceof Scenario.Clear clear) {
      return prepared(rig.field().faults().prepareClear(clear.on(), problems), null, 0);
    } else if (deed instanceof Scenario.Inject inject) {
      Switch set = rig.field().faults().prepare(inject.fault(), problems);
      boolean ends = set != null && inject.forMicros() > 0;
      Switch end = ends ? rig.field().faults().prepareEnd(inject.fault(), problems) : null;
      return prepared(set, end, inject.forMicros());
    } else if (deed instanceof Scenario.Ramp || deed instanceof Scenario.Pulse) {
      return new CourseLinker(rig, this).prepare(deed, problems);
    } else if (deed instanceof Scenario.Force force) {
      return prepareForce(force, problems);
    } else if (deed instanceof Scenario.Unforce unforce) {
      return prepareUnforce(unforce, problems);
    } else if (deed instanceof Scenario.Restart restart) {
      return new RestartRun(rig, restart);
    }
    return prepareSkip((Scenario.Skip) deed, problems);
  }

  private Prepared prepared(Switch act, Switch undo, long lastsMicros) {
    if (act == null) {
      return null;
    }
    return new Prepared() {
      @Override
      public void begin() {
        act.act(rig.engine().cells());
      }

      @Override
      public long lastsMicros() {
        return undo == null ? 0 : lastsMicros;
      }

      @Override
      public void end() {
        undo.act(rig.engine().cells());
      }
    };
  }

  private Prepared prepareSkip(Scenario.Skip deed, Diagnostics problems) {
    long lost = deed.periods() * rig.project().periodMicros();
    if (lost > rig.project().catchUpMicros()) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  deed.at(),
                  "no scan for " + Values.time(lost) + " would end the run")
              .expected(
                  "at most `catch_up`, "
                      + Values.time(rig.project().catchUpMicros())
                      + ", in all"));
      return null;
    }
    return () -> skip.accept(deed.periods());
  }

  private Prepared prepareForce(Scenario.Force force, Diagnostics problems) {
    List<Symbol> symbols = new ArrayList<>();
    List<Long> values = new ArrayList<>();
    for (Assignment assignment : force.values()) {
      Symbol symbol = forceable(assignment.point(), problems);
      Long value =
          symbol == null
              ? null
              : value(symbol.type(), symbol.enumeration(), assignment.value(), problems);
      if (value != null) {
        symbols.add(symbol);
        values.add(value);
      }
    }
    return symbols.size() < force.values().size()
        ? null
        : () -> {
          for (int i = 0; i < symbols.size(); i++) {
            rig.engine().forces().set(symbols.get(i).index(), values.get(i));
          }
        };
  }

  private Prepared prepareUnforce(Scenario.Unforce unforce, Diagnostics problems) {
    if (unforce.point() == null) {
      return () -> rig.engine().forces().clearAll();
    }
    Symbol symbol = forceable(unforce.point(), problems);
    return symbol == null ? null : () -> rig.engine().forces().clear(symbol.index());
  }

  private Symbol forceable(Name name, Diagnostics problems) {
    Symbol symbol = rig.layout().field().find(name.text());
    if (symbol != null && isForceable(symbol)) {
      return symbol;
    }
    List<String> known =
        rig.layout().observable().stream()
            .filter(DeedLinker::isForceable)
            .map(Symbol::name)
            .toList();
    problems.add(
        Diagnostic.error(
                Code.UNKNOWN_NAME,
                name.position(),
                "no input or output named `" + name.text() + "`")
            .expected("an input or output of the controller")
            .help(NearNames.question(name.text(), known)));
    return null;
  }

  /** Inputs and outputs of the controller; what a node or circuit makes of an output is not one. */
  static boolean isForceable(Symbol symbol) {
    boolean io = symbol.kind() == Kind.INPUT || symbol.kind() == Kind.OUTPUT;
    return io && symbol.name().indexOf('.') < 0;
  }

  private Prepared prepareWrite(Scenario.Write write, Diagnostics problems) {
    Map<Integer, Long> taken = new LinkedHashMap<>(); // by cell
    boolean good = true;
    boolean admitted = true;
    for (Assignment assignment : write.values()) {
      Point point = operatorPoint(assignment.point(), problems);
      long[] value = point == null ? null : value(point, assignment, problems);
      good &= value != null;
      if (value != null) {
        int first = rig.layout().field().find(point.name()).index();
        for (int cell = 0; cell < value.length; cell++) {
          taken.put(first + cell, value[cell]);
        }
        boolean one = point.type() != Type.STRING;
        admitted &=
            !one
                || (write.refused()
                    ? point.admits(value[0])
                    : admits(point, value[0], assignment, problems));
      }
    }
    if (!good || admitted == write.refused()) {
      reportAccepted(write, good && admitted, problems);
      return null;
    }
    int[] cells = taken.keySet().stream().mapToInt(Integer::intValue).toArray();
    long[] bits = taken.values().stream().mapToLong(Long::longValue).toArray();
    return admitted
        ? () -> rig.writes().offer(new WriteRequest(cells, bits, new long[cells.length]))
        : () -> {}; // the server refuses it and nothing reaches a scan
  }

  /** All cells of a value, a STRING's up to its length; null after a diagnostic. */
  private long[] value(Point point, Assignment assignment, Diagnostics problems) {
    if (point.type() == Type.STRING) {
      String text = ExpressionReader.text(assignment.value(), point.length(), problems);
      return text == null
          ? null
          : Arrays.copyOf(StringCells.pack(text), StringCells.cells(point.length()));
    }
    Long bits = value(point.type(), point.enumeration(), assignment.value(), problems);
    return bits == null ? null : new long[] {bits};
  }

  /** A constant that takes one cell; null after a diagnostic. */
  private Long value(Type type, Enumeration enumeration, SourceText given, Diagnostics problems) {
    Definitions definitions = rig.layout().field().definitions();
    if (definitions.hasNoValues()) {
      return ExpressionReader.literal(given, type, problems);
    }
    Expression value = ExpressionReader.constant(given, type, enumeration, definitions, problems);
    return value == null ? null : value.constant();
  }

  private static void reportAccepted(Scenario.Write write, boolean accepted, Diagnostics problems) {
    if (write.refused() && accepted) {
      Name first = write.values().get(0).point();
      problems.add(
          Diagnostic.error(
                  Code.NOT_REFUSED,
                  first.position(),
                  "this write is in range and would not be refused")
              .help("take `refused` away, or give a value outside the range"));
    }
  }

  /** Whether a point takes a value; if not, it is said. */
  static boolean admits(Point point, long value, Assignment assignment, Diagnostics problems) {
    if (point.admits(value)) {
      return true;
    }
    Type type = point.type();
    problems.add(
        Diagnostic.error(
                Code.OUT_OF_RANGE,
                assignment.value().whole(),
                "`" + point.name() + "` cannot be " + Values.print(type, value))
            .expected(
                "from "
                    + Values.print(type, point.least())
                    + " to "
                    + Values.print(type, point.greatest())));
    return false;
  }

  /** The operator point of that name; null after a diagnostic. */
  Point operatorPoint(Name name, Diagnostics problems) {
    List<Point> points = rig.writable();
    for (Point point : points) {
      if (point.name().equalsIgnoreCase(name.text())) {
        return point;
      }
    }
    List<String> known = points.stream().map(Point::name).toList();
    problems.add(
        Diagnostic.error(
                Code.UNKNOWN_NAME, name.position(), "no operator point named `" + name.text() + "`")
            .expected("a name under operator")
            .help(NearNames.question(name.text(), known)));
    return null;
  }
}
