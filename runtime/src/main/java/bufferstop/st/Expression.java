package bufferstop.st;

import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;

/**
 * A typed expression, ready to be evaluated over the cells of an image. Evaluation reads the cells
 * of its symbols, counts its errors in {@link SystemCells#ERRORS} and allocates nothing.
 */
public abstract class Expression extends Node {
  private final Type type;
  private final SourceText source;
  private Boolean mayFail; // once it was asked for
  private int place; // among those where a run may find an error; 0 for none

  Expression(Type type, SourceText source) {
    this.type = type;
    this.source = source;
  }

  /** The type of its value. */
  public final Type type() {
    return type;
  }

  /** The enumeration its value is of; null for other types. */
  public Enumeration enumeration() {
    return null;
  }

  /** Most bytes that a STRING value of it can have; 0 for other types. */
  int capacity() {
    return 0;
  }

  /** The characters of a STRING literal, else null. */
  public String text() {
    return null;
  }

  /** Its type as declarations write it. */
  final String typeName() {
    return Values.typeName(type, enumeration(), 0);
  }

  /** The text it was made from. */
  public final SourceText source() {
    return source;
  }

  /** Its value in the encoding of {@link Type}; 0 after an error. */
  public final long bits(long[] cells) {
    return bits(cells, 0);
  }

  /** The value of a BOOL expression. */
  public final boolean truth(long[] cells) {
    return bits(cells, 0) != 0;
  }

  /** The value of a numeric or TIME expression as a double; TIME in seconds. */
  public final double real(long[] cells) {
    return real(cells, 0);
  }

  /**
   * Its value inside the body of a block.
   *
   * @param at first cell of the instance that runs
   */
  abstract long bits(long[] cells, int at);

  final boolean truth(long[] cells, int at) {
    return bits(cells, at) != 0;
  }

  final double real(long[] cells, int at) {
    return Numbers.real(type, bits(cells, at));
  }

  /** Every symbol it reads, each once, in order of first use. */
  public final List<Symbol> reads() {
    List<Symbol> found = new ArrayList<>();
    collectReads(found);
    return List.copyOf(found);
  }

  /**
   * Its value when it reads nothing and does not fail, in the encoding of {@link Type}, or null.
   */
  public final Long constant() {
    if (readsAnything()) {
      return null;
    }
    long[] cells = new long[SystemCells.COUNT];
    long bits = bits(cells, 0);
    return cells[SystemCells.ERRORS] == 0 ? Long.valueOf(bits) : null;
  }

  /** How a BOOL expression is put together. */
  public Structure structure() {
    return new Structure.Leaf();
  }

  /** What it is computed from, in the order of evaluation. */
  abstract List<Expression> operands();

  @Override
  final List<Expression> parts() {
    return operands();
  }

  /** Whether its own operation may count an error, whatever its operands do. */
  boolean failsItself() {
    return false;
  }

  /** Whether evaluating it may count an error. */
  boolean mayFail() {
    if (mayFail == null) {
      mayFail = failsItself() || operands().stream().anyMatch(Expression::mayFail);
    }
    return mayFail;
  }

  /** Gives it a number under which its first error can be found again. */
  final Expression placed(Diagnostics problems) {
    if (place == 0 && failsItself()) {
      place = problems.placeOf(source);
    }
    return this;
  }

  /** The number of its place, for {@link Faults#raise}. */
  final int place() {
    return place;
  }

  void collectReads(List<Symbol> found) {
    for (Expression operand : operands()) {
      operand.collectReads(found);
    }
  }

  boolean readsAnything() {
    for (Expression operand : operands()) {
      if (operand.readsAnything()) {
        return true;
      }
    }
    return false;
  }
}
