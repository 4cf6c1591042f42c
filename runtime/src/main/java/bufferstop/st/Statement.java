package bufferstop.st;

import bufferstop.model.Symbol;
import java.util.List;

/** One statement. */
sealed interface Statement
    permits Statement.Sequence, Statement.Assignment, Statement.If, Statement.Exit, Case, For {

  /** Runs it. Returns true when an EXIT in it leaves the loop around it. */
  boolean run(long[] cells);

  void collectReads(List<Symbol> found);

  /** One after the other. */
  final class Sequence implements Statement {
    private final Statement[] statements;

    Sequence(List<Statement> statements) {
      this.statements = statements.toArray(Statement[]::new);
    }

    @Override
    public boolean run(long[] cells) {
      for (Statement statement : statements) {
        if (statement.run(cells)) {
          return true;
        }
      }
      return false;
    }

    @Override
    public void collectReads(List<Symbol> found) {
      for (Statement statement : statements) {
        statement.collectReads(found);
      }
    }
  }

  /** {@code target := value}; keeps the target when the value could not be computed. */
  final class Assignment implements Statement {
    private final int target;
    private final Expression value;

    Assignment(Symbol target, Expression value) {
      this.target = target.index();
      this.value = value;
    }

    @Override
    public boolean run(long[] cells) {
      long watched = Faults.watch(cells);
      long bits = value.bits(cells);
      if (!Faults.failedSince(cells, watched)) {
        cells[target] = bits;
      }
      return false;
    }

    @Override
    public void collectReads(List<Symbol> found) {
      value.collectReads(found);
    }
  }

  /** EXIT. */
  final class Exit implements Statement {
    @Override
    public boolean run(long[] cells) {
      return true;
    }

    @Override
    public void collectReads(List<Symbol> found) {
      // it reads nothing
    }
  }

  /** IF with ELSE; an ELSIF is an IF in the ELSE of another. A condition with an error is FALSE. */
  final class If implements Statement {
    private final Whole condition;
    private final Statement then;
    private final Statement otherwise;

    If(Whole condition, Statement then, Statement otherwise) {
      this.condition = condition;
      this.then = then;
      this.otherwise = otherwise;
    }

    @Override
    public boolean run(long[] cells) {
      return (condition.truth(cells) ? then : otherwise).run(cells);
    }

    @Override
    public void collectReads(List<Symbol> found) {
      condition.collectReads(found);
      then.collectReads(found);
      otherwise.collectReads(found);
    }
  }
}
