package bufferstop.st;

import bufferstop.model.Position;
import bufferstop.model.Symbol;
import java.util.List;

/** Statements, ready to be run over the cells of an image. */
public final class Program {
  private final Statement statements;
  private final List<Write> writes;

  /**
   * A symbol that is assigned.
   *
   * @param position of its name in the first assignment
   */
  public record Write(Symbol symbol, Position position) {}

  Program(Statement statements, List<Write> writes) {
    this.statements = statements;
    this.writes = List.copyOf(writes);
  }

  /**
   * The statements. Where an error is counted while a right side is evaluated, the target keeps its
   * value. Loops that make more than a million passes in a scan end with an error.
   */
  public Statement statements() {
    return statements;
  }

  /** Symbols assigned, also by statements with a wrong right side, each once, in text order. */
  public List<Write> writes() {
    return writes;
  }

  /** Symbols read, each once, in text order. */
  public List<Symbol> reads() {
    return statements.reads();
  }
}
