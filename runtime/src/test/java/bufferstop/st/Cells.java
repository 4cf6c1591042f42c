package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** A scope for tests, the cells of its names, and short ways to read and evaluate. */
final class Cells implements Scope {
  private static final int RESULT = 63;

  private final Map<String, Symbol> byName = new TreeMap<>();
  final long[] cells = new long[64];
  final Diagnostics problems = new Diagnostics();

  /** Declares names of one type on line 7 of a file. */
  Cells with(Type type, String... names) {
    for (String name : names) {
      int index = SystemCells.COUNT + byName.size();
      Position declared = new Position("project.yaml", 7, 5, name.length());
      byName.put(
          name.toLowerCase(Locale.ROOT),
          new Symbol(index, name, type, Symbol.Kind.INTERNAL, "", "", declared));
    }
    return this;
  }

  /** One name of every type: b, si, i, di, li, usi, ui, udi, uli, r, lr, t; and a second, b2... */
  static Cells ofEveryType() {
    String[] names = {"b", "si", "i", "di", "li", "usi", "ui", "udi", "uli", "r", "lr", "t"};
    Cells all = new Cells();
    for (Type type : Type.values()) {
      all.with(type, names[type.ordinal()], names[type.ordinal()] + "2");
    }
    return all;
  }

  Cells set(String name, long bits) {
    cells[find(name).index()] = bits;
    return this;
  }

  Cells set(String name, double value) {
    return set(name, Double.doubleToLongBits(value));
  }

  long get(String name) {
    return cells[find(name).index()];
  }

  @Override
  public Symbol find(String name) {
    return byName.get(name.toLowerCase(Locale.ROOT));
  }

  @Override
  public Collection<String> names() {
    return byName.values().stream().map(Symbol::name).toList();
  }

  /** Reads an expression that must be right. */
  Expression read(String text) {
    Expression expression = ExpressionReader.read(SourceText.of(text), this, problems);
    assertNotNull(expression, () -> text + ": " + problems.sorted());
    return expression;
  }

  Expression read(String text, Type wanted) {
    Expression expression = ExpressionReader.read(SourceText.of(text), this, wanted, problems);
    assertNotNull(expression, () -> text + ": " + problems.sorted());
    return expression;
  }

  /** Errors counted so far. */
  long errors() {
    return cells[SystemCells.ERRORS];
  }

  /** The value of an expression, evaluated as it stands and compiled, which must agree. */
  long bits(Expression expression) {
    Symbol result =
        new Symbol(RESULT, "result", expression.type(), Symbol.Kind.INTERNAL, "", "", null);
    run(Terms.set(result, expression));
    return cells[RESULT];
  }

  /** A scan: runs statements as they stand and compiled, and every cell must agree. */
  void run(Statement statement) {
    cells[SystemCells.PASSES] = 0;
    long[] compiled = cells.clone();
    statement.run(cells);
    Compiled.of(statement).run(compiled);
    assertArrayEquals(cells, compiled, "compiled otherwise than run as it stands");
  }

  /** The value of an expression that must be right and must not fail. */
  String value(String text) {
    Expression expression = read(text);
    long bits = bits(expression);
    assertEquals(0, errors(), () -> text + " raised an error");
    return print(expression.type(), bits);
  }

  /** The value; {@code error} when one was counted. */
  String outcome(String text) {
    Expression expression = read(text);
    cells[SystemCells.ERRORS] = 0;
    long bits = bits(expression);
    return errors() == 0 ? print(expression.type(), bits) : "error";
  }

  /** The problems of an expression that must be wrong. */
  List<Diagnostic> wrong(String text) {
    Expression expression = ExpressionReader.read(SourceText.of(text), this, problems);
    assertEquals(null, expression, text);
    return problems.sorted();
  }

  /** A value without loss. */
  static String print(Type type, long bits) {
    return switch (type) {
      case BOOL -> bits == 0 ? "FALSE" : "TRUE";
      case ULINT -> Long.toUnsignedString(bits);
      case REAL, LREAL -> Double.toString(Double.longBitsToDouble(bits));
      default -> Long.toString(bits);
    };
  }
}
