package bufferstop.st;

import bufferstop.model.Position;
import bufferstop.model.Symbol;
import java.util.List;

/** Statements, ready to be run over the cells of an image. */
public final class Program {
  private final Statement statements;
  private final List<Write> writes;
  private final List<BlockCall> blockCalls;
  private final List<Call> calls;

  /**
   * A symbol that is assigned.
   *
   * @param position of its name in the first assignment
   */
  public record Write(Symbol symbol, Position position) {}

  /**
   * A call of an instance of a block.
   *
   * @param inputs the numbers of the inputs it gives
   * @param position of the instance's name
   */
  public record BlockCall(Instance instance, List<Integer> inputs, Position position) {}

  /**
   * A call of a user's function.
   *
   * @param position of its name
   */
  public record Call(UserFunction function, Position position) {}

  Program(Statement statements, List<Write> writes, List<BlockCall> blockCalls, List<Call> calls) {
    this.statements = statements;
    this.writes = List.copyOf(writes);
    this.blockCalls = List.copyOf(blockCalls);
    this.calls = List.copyOf(calls);
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

  /** Calls of blocks, also wrong ones, in text order. */
  public List<BlockCall> blockCalls() {
    return blockCalls;
  }

  /** Calls of users' functions, also wrong ones, in text order. */
  public List<Call> calls() {
    return calls;
  }

  /** Symbols read, each once, in text order. */
  public List<Symbol> reads() {
    return statements.reads();
  }
}
