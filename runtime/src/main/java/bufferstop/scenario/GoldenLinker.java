package bufferstop.scenario;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Golden;
import bufferstop.model.Scenario.StoredRun;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;

/** Finds the values a stored run is compared with. */
final class GoldenLinker {
  private static final double MICROS = 1e6;
  private static final double MICROS_PER_MILLI = 1000;

  private final Golden golden;
  private final StoredRun run;
  private final Scope scope;
  private final Diagnostics problems;

  GoldenLinker(Golden golden, Scope scope, Diagnostics problems) {
    this.golden = golden;
    this.run = golden.run();
    this.scope = scope;
    this.problems = problems;
  }

  /** The monitor; null after a diagnostic. */
  Monitor link() {
    List<GoldenColumn> columns = new ArrayList<>();
    for (Assignment tolerance : golden.tolerances()) {
      String name = tolerance.point().text();
      if (!name.equals("*") && run.names().stream().noneMatch(name::equalsIgnoreCase)) {
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_NAME,
                    tolerance.point().position(),
                    "the stored run has no column `" + name + "`")
                .expected("a column of `" + run.file().text() + "`, or `*` for all others")
                .help(NearNames.question(name, run.names())));
      }
    }
    for (int c = 0; c < run.names().size(); c++) {
      GoldenColumn column = column(c);
      if (column != null) {
        columns.add(column);
      }
    }
    return columns.size() < run.names().size() ? null : new GoldenMonitor(golden, columns);
  }

  private GoldenColumn column(int number) {
    String name = run.names().get(number);
    Symbol symbol = scope.find(name);
    if (symbol == null) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME, run.file().position(), "no point named `" + name + "`")
              .expected("the columns of `" + run.file().text() + "`"));
      return null;
    }
    Double tolerance = tolerance(symbol);
    long[] stored = new long[run.micros().length];
    boolean[] present = new boolean[stored.length];
    List<String> texts = new ArrayList<>();
    for (int r = 0; r < stored.length; r++) {
      String value = run.values().get(r).get(number);
      present[r] = !value.isEmpty() || symbol.type() == Type.STRING;
      Long bits = present[r] ? bits(symbol, value, texts) : Long.valueOf(0);
      if (bits == null) {
        problems.add(
            Diagnostic.error(
                Code.BAD_LITERAL,
                new Position(run.file().text(), r + 2, 1, 1),
                "`" + value + "` is no value of `" + name + "`, " + symbol.typeName()));
        return null;
      }
      stored[r] = bits;
    }
    return tolerance == null ? null : new GoldenColumn(symbol, tolerance, texts, stored, present);
  }

  private Double tolerance(Symbol symbol) {
    Assignment found = null;
    for (Assignment tolerance : golden.tolerances()) {
      String name = tolerance.point().text();
      boolean all = name.equals("*") && found == null;
      boolean own = name.equalsIgnoreCase(symbol.name());
      found = own || all && GoldenColumn.isMeasured(symbol.type()) ? tolerance : found;
    }
    if (found == null) {
      return 0.0;
    }
    boolean time = symbol.type() == Type.TIME;
    Long bits = ExpressionReader.literal(found.value(), time ? Type.TIME : Type.LREAL, problems);
    Double value =
        bits == null ? null : time ? bits / MICROS : Double.valueOf(Double.longBitsToDouble(bits));
    if (value != null && !(value >= 0)) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  found.value().whole(),
                  "a tolerance of " + found.value().value())
              .expected("0 or more"));
      return null;
    }
    return value;
  }

  /**
   * As `trace --csv` writes it: enumerations by name, a STRING's text, and else as {@link
   * #bits(Type, String)}.
   */
  private static Long bits(Symbol symbol, String value, List<String> texts) {
    if (symbol.type() == Type.STRING) {
      if (!texts.contains(value)) {
        texts.add(value);
      }
      return (long) texts.indexOf(value);
    }
    int number = symbol.enumeration() == null ? -1 : symbol.enumeration().number(value);
    return number >= 0 ? Long.valueOf(number) : bits(symbol.type(), value);
  }

  /** BOOL 0 or 1, TIME in milliseconds, numbers plain. */
  static Long bits(Type type, String value) {
    try {
      return switch (type) {
        case BOOL -> value.equals("1") ? Long.valueOf(1) : value.equals("0") ? 0L : null;
        case REAL, LREAL -> Double.doubleToLongBits(Double.parseDouble(value));
        case TIME -> Math.round(Double.parseDouble(value) * MICROS_PER_MILLI);
        case ULINT, LWORD -> Long.parseUnsignedLong(value);
        default -> Long.parseLong(value);
      };
    } catch (NumberFormatException e) {
      return null;
    }
  }
}
