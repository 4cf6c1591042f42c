package bufferstop.st;

import bufferstop.model.Symbol;
import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/** One statement, or several, ready to be run over the cells of an image. */
public abstract class Statement extends Node {
  /** How a statement ended: the next one follows. */
  static final int ON = 0;

  /** How a statement ended: the innermost loop is left. */
  static final int EXIT = 1;

  /** How a statement ended: the body of the function or block is left. */
  static final int RETURN = 2;

  /** How a statement ended: the innermost loop goes on with its next pass. */
  static final int CONTINUE = 3;

  Statement() {}

  /** Runs it as it stands, slowly; {@link Compiled} does the same faster. */
  public final void run(long[] cells) {
    run(cells, 0);
  }

  /**
   * Runs it inside the body of a block.
   *
   * @param at first cell of the instance that runs
   * @return how it ended
   */
  abstract int run(long[] cells, int at);

  /** Whether it can end so. */
  boolean mayEnd(int how) {
    for (Node part : parts()) {
      if (part instanceof Statement statement && statement.mayEnd(how)) {
        return true;
      }
    }
    return false;
  }

  void collectReads(List<Symbol> found) {
    for (Node part : parts()) {
      if (part instanceof Expression expression) {
        expression.collectReads(found);
      } else {
        ((Statement) part).collectReads(found);
      }
    }
  }

  /** Symbols read, each once, in text order. */
  public final List<Symbol> reads() {
    List<Symbol> found = new ArrayList<>();
    collectReads(found);
    return List.copyOf(found);
  }

  /** One after the other. */
  public static Statement sequence(List<Statement> statements) {
    return new Sequence(statements);
  }

  /** One after the other. */
  static final class Sequence extends Statement {
    private List<Statement> statements;

    Sequence(List<Statement> statements) {
      this.statements = List.copyOf(statements);
    }

    @Override
    int run(long[] cells, int at) {
      for (Statement statement : statements) {
        int end = statement.run(cells, at);
        if (end != ON) {
          return end;
        }
      }
      return ON;
    }

    @Override
    List<Statement> parts() {
      return statements;
    }

    /** Statements next to each other share a method, since each alone may be short. */
    @Override
    void regroup() {
      while (cost(statements) > ROOM) {
        statements = grouped();
      }
    }

    private List<Statement> grouped() {
      List<Statement> groups = new ArrayList<>();
      List<Statement> open = new ArrayList<>();
      for (Statement statement : statements) {
        if (!open.isEmpty() && cost(open) + statement.cost() > ROOM) {
          groups.add(group(open));
          open.clear();
        }
        open.add(statement);
      }
      groups.add(group(open));
      return List.copyOf(groups);
    }

    private static Statement group(List<Statement> statements) {
      Statement group = statements.size() == 1 ? statements.get(0) : new Sequence(statements);
      group.fit();
      group.standApart();
      return group;
    }

    @Override
    int ownBytes() {
      return 0;
    }

    @Override
    void emit(Code code) {
      statements.forEach(code::put);
    }
  }

  /** {@code target := value}; keeps the target when the value could not be computed. */
  static final class Assignment extends Statement {
    private final Symbol target;
    private final Expression value;

    Assignment(Symbol target, Expression value) {
      this.target = target;
      this.value = value;
    }

    @Override
    int run(long[] cells, int at) {
      long watched = Faults.watch(cells);
      long bits = value.bits(cells, at);
      if (!Faults.failedSince(cells, watched)) {
        cells[Read.cell(target, at)] = bits;
      }
      return ON;
    }

    @Override
    List<Expression> parts() {
      return List.of(value);
    }

    @Override
    int ownBytes() {
      return 48;
    }

    @Override
    void emit(Code code) {
      if (!value.mayFail()) {
        code.address(target);
        code.put(value);
        code.store();
        return;
      }
      Label failed = new Label();
      int bits = code.putWatched(value, failed);
      code.address(target);
      code.loadLocal(bits);
      code.store();
      code.label(failed);
    }
  }

  /** EXIT, RETURN or CONTINUE. */
  static final class Leave extends Statement {
    private final int how;

    Leave(int how) {
      this.how = how;
    }

    @Override
    int run(long[] cells, int at) {
      return how;
    }

    @Override
    boolean mayEnd(int asked) {
      return asked == how;
    }

    @Override
    List<Node> parts() {
      return List.of();
    }

    @Override
    int ownBytes() {
      return 4;
    }

    @Override
    void emit(Code code) {
      code.end(how);
    }
  }

  /** IF with ELSE; an ELSIF is an IF in the ELSE of another. A condition with an error is FALSE. */
  static final class If extends Statement {
    private final Expression condition;
    private final Statement then;
    private final Statement otherwise;

    If(Whole condition, Statement then, Statement otherwise) {
      this.condition = condition;
      this.then = then;
      this.otherwise = otherwise;
    }

    @Override
    int run(long[] cells, int at) {
      return (condition.truth(cells, at) ? then : otherwise).run(cells, at);
    }

    @Override
    List<Node> parts() {
      return List.of(condition, then, otherwise);
    }

    @Override
    int ownBytes() {
      return 12;
    }

    @Override
    void emit(Code code) {
      Label isFalse = new Label();
      Label end = new Label();
      code.put(condition);
      code.jumpIfFalse(isFalse);
      code.put(then);
      code.jump(Opcodes.GOTO, end);
      code.label(isFalse);
      code.put(otherwise);
      code.label(end);
    }
  }

  /** Gives a block its inputs, those that could be computed, and runs its body. */
  static final class Call extends Statement {
    private final Body body;
    private final Symbol first;
    private final List<Statement> inputs;

    /**
     * A call.
     *
     * @param first the first cell of the instance
     */
    Call(Body body, Symbol first, List<Statement> inputs) {
      this.body = body;
      this.first = first;
      this.inputs = List.copyOf(inputs);
    }

    @Override
    int run(long[] cells, int at) {
      for (Statement input : inputs) {
        input.run(cells, at);
      }
      body.run(cells, Read.cell(first, at));
      return ON;
    }

    @Override
    List<Statement> parts() {
      return inputs;
    }

    @Override
    int ownBytes() {
      return 12;
    }

    @Override
    void emit(Code code) {
      inputs.forEach(code::put);
      code.address(first);
      code.call(body);
    }
  }
}
