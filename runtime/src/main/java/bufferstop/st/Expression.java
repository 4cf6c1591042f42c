package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;

/**
 * A typed expression, ready to be evaluated over the cells of an image. Evaluation reads the cells
 * of its symbols, counts its errors in cell 0 and allocates nothing.
 */
public abstract class Expression {
  private final Type type;
  private final SourceText source;

  Expression(Type type, SourceText source) {
    this.type = type;
    this.source = source;
  }

  /** The type of its value. */
  public final Type type() {
    return type;
  }

  /** The text it was made from. */
  public final SourceText source() {
    return source;
  }

  /** Its value in the encoding of {@link Type}; 0 after an error. */
  public abstract long bits(long[] cells);

  /** The value of a BOOL expression. */
  public final boolean truth(long[] cells) {
    return bits(cells) != 0;
  }

  /** The value of a numeric or TIME expression as a double; TIME in seconds. */
  public final double real(long[] cells) {
    return Numbers.real(type, bits(cells));
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
    long[] cells = new long[Faults.CELL + 1];
    long bits = bits(cells);
    return cells[Faults.CELL] == 0 ? Long.valueOf(bits) : null;
  }

  /** How a BOOL expression is put together. */
  public Structure structure() {
    return new Structure.Leaf();
  }

  /** What it is computed from, in the order of evaluation. */
  abstract List<Expression> operands();

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
