package bufferstop.st;

import bufferstop.model.Position;
import bufferstop.model.Symbol;
import java.util.ArrayList;
import java.util.List;

/** Statements, ready to be run over the cells of an image. */
public final class Program {
  private final Statement statements;
  private final List<Write> writes;
  private final For[] loops;

  /**
   * A symbol that is assigned.
   *
   * @param position of its name in the first assignment
   */
  public record Write(Symbol symbol, Position position) {}

  Program(Statement statements, List<Write> writes, List<For> loops) {
    this.statements = statements;
    this.writes = List.copyOf(writes);
    this.loops = loops.toArray(For[]::new);
  }

  /**
   * Runs all statements once, in order. Where an error is counted while a right side is evaluated,
   * the target keeps its value. A loop that makes more than a million passes ends with an error.
   */
  public void run(long[] cells) {
    for (For loop : loops) {
      loop.restart();
    }
    statements.run(cells);
  }

  /** Symbols assigned, also by statements with a wrong right side, each once, in text order. */
  public List<Write> writes() {
    return writes;
  }

  /** Symbols read, each once, in text order. */
  public List<Symbol> reads() {
    List<Symbol> found = new ArrayList<>();
    statements.collectReads(found);
    return List.copyOf(found);
  }
}
