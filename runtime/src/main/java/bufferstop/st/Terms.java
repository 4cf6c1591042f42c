package bufferstop.st;

import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.util.List;

/** Trees that no user wrote: what declared interlocks, sequences and alarms come to. */
public final class Terms {
  private Terms() {}

  /** The value of a symbol. */
  public static Expression read(Symbol symbol) {
    return new Read(symbol, SourceText.of(symbol.name()));
  }

  /** TRUE or FALSE. */
  public static Expression truth(boolean value) {
    return new Constant(Type.BOOL, value ? 1 : 0, SourceText.of(value ? "TRUE" : "FALSE"));
  }

  /** A TIME. */
  public static Expression micros(long micros) {
    return new Constant(Type.TIME, micros, SourceText.of(micros + "us"));
  }

  /** A value of any type, in its encoding. */
  public static Expression value(Type type, long bits) {
    return new Constant(type, bits, SourceText.of(Values.print(type, bits)));
  }

  /** An LREAL. */
  public static Expression real(double value) {
    return new Constant(
        Type.LREAL, Double.doubleToRawLongBits(value), SourceText.of(Double.toString(value)));
  }

  /** The sum of two LREALs. */
  public static Expression plus(Expression left, Expression right) {
    return new RealArithmetic(Operator.PLUS, left, right, left.source());
  }

  /** The difference of two LREALs. */
  public static Expression minus(Expression left, Expression right) {
    return new RealArithmetic(Operator.MINUS, left, right, left.source());
  }

  /** The time of this scan. */
  public static Expression now() {
    return read(scanTime());
  }

  private static Symbol scanTime() {
    return new Symbol(SystemCells.TIME, "scan.time", Type.TIME, Kind.INTERNAL, "", "", null);
  }

  /** The time since the moment in a cell. */
  public static Expression elapsed(Symbol since) {
    return between(since, scanTime());
  }

  /** The time from the moment in one cell to that in another. */
  public static Expression between(Symbol since, Symbol until) {
    return new Elapsed(since, until);
  }

  /** NOT. */
  public static Expression not(Expression operand) {
    return new Not(operand, operand.source());
  }

  /** TRUE when all are; of none TRUE. */
  public static Expression all(List<Expression> operands) {
    return chain(Operator.AND, operands);
  }

  /** TRUE when one is; of none FALSE. */
  public static Expression any(List<Expression> operands) {
    return chain(Operator.OR, operands);
  }

  private static Expression chain(Operator operator, List<Expression> operands) {
    if (operands.isEmpty()) {
      return truth(operator == Operator.AND);
    }
    Expression chain = operands.get(0);
    for (Expression operand : operands.subList(1, operands.size())) {
      chain = new Logic(operator, chain, operand, operand.source());
    }
    return chain;
  }

  /** One more than an integer. */
  public static Expression next(Symbol symbol) {
    Expression one = new Constant(symbol.type(), 1, SourceText.of("1"));
    return new IntegerArithmetic(
        Operator.PLUS, read(symbol), one, SourceText.of(symbol.name() + " + 1"));
  }

  /** Whether {@code left} is at least {@code right}, both of one type that has an order. */
  public static Expression atLeast(Expression left, Expression right) {
    return new Comparison(Operator.AT_LEAST, left, right, left.source());
  }

  /** Whether {@code left} is more than {@code right}, likewise. */
  public static Expression above(Expression left, Expression right) {
    return new Comparison(Operator.GREATER, left, right, left.source());
  }

  /** The same, numbered so that its first error in a run can be found again. */
  public static Expression placed(Expression expression, Diagnostics problems) {
    return expression.placed(problems);
  }

  /** Stores a value, whatever errors were counted on the way to it. */
  public static Statement set(Symbol target, Expression value) {
    return new Store(target, value);
  }

  /** Stores a BOOL. */
  public static Statement set(Symbol target, boolean value) {
    return new Store(target, truth(value));
  }

  /** IF without ELSE. */
  public static Statement when(Expression condition, List<Statement> then) {
    return choose(condition, then, List.of());
  }

  /** IF with ELSE. */
  public static Statement choose(
      Expression condition, List<Statement> then, List<Statement> otherwise) {
    return new Statement.If(
        new Whole(condition, condition.source()),
        new Statement.Sequence(then),
        new Statement.Sequence(otherwise));
  }

  /**
   * A call of a block.
   *
   * @param first the first cell of the instance
   * @param inputs what is assigned to its inputs before, where it can be computed
   */
  public static Statement call(BlockType type, Symbol first, List<Input> inputs) {
    return new Statement.Call(
        type.body(),
        first,
        inputs.stream().map(i -> Stores.into(i.first, i.pin.of(), i.value)).toList());
  }

  /**
   * What a call gives to an input.
   *
   * @param first its first cell
   */
  public record Input(Symbol first, BlockType.Pin pin, Expression value) {}

  /** Copies as many cells from one place to another. */
  public static Statement copy(Symbol target, Symbol from, int count) {
    return new Stores.OfCells(target, count, new FirstCell(from, SourceText.of(from.name())));
  }

  /** An assignment without regard to errors. */
  private static final class Store extends Statement {
    private final Symbol target;
    private final Expression value;

    Store(Symbol target, Expression value) {
      this.target = target;
      this.value = value;
    }

    @Override
    int run(long[] cells, int at) {
      cells[Read.cell(target, at)] = value.bits(cells, at);
      return ON;
    }

    @Override
    List<Expression> parts() {
      return List.of(value);
    }

    @Override
    int ownBytes() {
      return 7;
    }

    @Override
    void emit(Code code) {
      code.address(target);
      code.put(value);
      code.store();
    }
  }
}
