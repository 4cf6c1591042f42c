package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;

/**
 * A TIME times or divided by a number. By an integer it is exact and a division truncates toward
 * zero; by a real it is rounded to the nearest microsecond, a tie to the even one.
 */
final class TimeScaling extends TwoOperands {

  TimeScaling(Operator operator, Expression time, Expression factor, SourceText source) {
    super(Type.TIME, operator, time, factor, source);
  }

  @Override
  long bits(long[] cells, int at) {
    long micros = left.bits(cells, at);
    if (right.type().isReal()) {
      double by = right.real(cells, at);
      return operator == Operator.TIMES
          ? times(micros, by, cells, place())
          : divided(micros, by, cells, place());
    }
    long whole = right.bits(cells, at);
    return operator == Operator.TIMES
        ? Integers.times(micros, whole, Type.TIME, cells, place())
        : Integers.divided(micros, whole, Type.TIME, cells, place());
  }

  static long times(long micros, double by, long[] cells, int place) {
    return Reals.toInteger(Type.TIME, StrictMath.rint(micros * by), cells, place);
  }

  static long divided(long micros, double by, long[] cells, int place) {
    return by == 0
        ? Faults.raise(cells, place)
        : Reals.toInteger(Type.TIME, StrictMath.rint(micros / by), cells, place);
  }

  @Override
  boolean failsItself() {
    return true;
  }

  @Override
  int ownBytes() {
    return 16;
  }

  @Override
  void emit(Code code) {
    String method = operator == Operator.TIMES ? "times" : "divided";
    if (right.type().isReal()) {
      code.put(left);
      code.putReal(right);
      code.place(place());
      code.call(TimeScaling.class, method, "(JD[JI)J");
    } else {
      putBoth(code);
      code.push(Type.TIME);
      code.place(place());
      code.call(Integers.class, method, "(JJLbufferstop/model/Type;[JI)J");
    }
  }
}
