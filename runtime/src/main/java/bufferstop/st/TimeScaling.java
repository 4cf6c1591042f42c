package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/**
 * A TIME times or divided by a number. By an integer it is exact and a division truncates toward
 * zero; by a real it is rounded to the nearest microsecond, a tie to the even one.
 */
final class TimeScaling extends Expression {
  private final Operator operator;
  private final Expression time;
  private final Expression factor;

  TimeScaling(Operator operator, Expression time, Expression factor, SourceText source) {
    super(Type.TIME, source);
    this.operator = operator;
    this.time = time;
    this.factor = factor;
  }

  @Override
  public long bits(long[] cells) {
    long micros = time.bits(cells);
    if (factor.type().isReal()) {
      return byReal(cells, micros, factor.real(cells));
    }
    long whole = factor.bits(cells);
    return operator == Operator.TIMES
        ? Integers.times(cells, Type.TIME, micros, whole)
        : Integers.divided(cells, Type.TIME, micros, whole);
  }

  private long byReal(long[] cells, long micros, double by) {
    if (operator == Operator.DIVIDED && by == 0) {
      return Faults.raise(cells);
    }
    double scaled = operator == Operator.TIMES ? micros * by : micros / by;
    return Reals.toInteger(cells, Type.TIME, StrictMath.rint(scaled));
  }

  @Override
  List<Expression> operands() {
    return List.of(time, factor);
  }
}
