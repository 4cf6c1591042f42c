package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/**
 * The conversions written X_TO_Y, and TRUNC. A real goes to the nearest integer, a tie to the even
 * one (IEC 61131-3:2003, Table 22 note b [re-read]); TRUNC goes toward zero (note c [re-read]).
 */
final class Conversion extends Expression {
  private final Expression operand;
  private final boolean truncates;

  private Conversion(Expression operand, Type to, boolean truncates, SourceText source) {
    super(to, source);
    this.operand = operand;
    this.truncates = truncates;
  }

  static Conversion rounding(Expression operand, Type to, SourceText source) {
    return new Conversion(operand, to, false, source);
  }

  static Conversion truncating(Expression operand, Type to, SourceText source) {
    return new Conversion(operand, to, true, source);
  }

  /** Whether X_TO_Y exists. */
  static boolean exists(Type from, Type to) {
    if (from == to || to == Type.BOOL) {
      return false;
    }
    return switch (from) {
      case BOOL -> to.isInteger();
      case TIME -> to.isInteger() || to == Type.LREAL;
      case REAL -> to != Type.TIME;
      default -> true;
    };
  }

  @Override
  long bits(long[] cells, int at) {
    return of(operand.bits(cells, at), operand.type(), type(), truncates, cells, place());
  }

  static long of(long bits, Type from, Type to, boolean truncates, long[] cells, int place) {
    return switch (from) {
      case REAL, LREAL -> ofReal(Double.longBitsToDouble(bits), to, truncates, cells, place);
      case TIME -> ofTime(bits, to, cells, place);
      default -> ofInteger(bits, from, to, cells, place);
    };
  }

  private static long ofReal(double value, Type to, boolean truncates, long[] cells, int place) {
    if (to.isReal()) {
      return Reals.kept(to, value, cells, place);
    }
    double inUnits = to == Type.TIME ? value * Numbers.MICROS_PER_MILLI : value;
    double whole = truncates ? truncated(value) : StrictMath.rint(inUnits);
    return Reals.toInteger(to, whole, cells, place);
  }

  private static double truncated(double value) {
    return value < 0 ? StrictMath.ceil(value) : StrictMath.floor(value);
  }

  private static long ofTime(long micros, Type to, long[] cells, int place) {
    if (to == Type.LREAL) {
      return Double.doubleToRawLongBits(micros / (double) Numbers.MICROS_PER_MILLI);
    }
    return ofInteger(Numbers.nearestMilli(micros), Type.LINT, to, cells, place);
  }

  private static long ofInteger(long value, Type from, Type to, long[] cells, int place) {
    if (to.isReal()) {
      return Double.doubleToRawLongBits(Numbers.ofInteger(from, value, to));
    }
    boolean huge = from == Type.ULINT && value < 0;
    boolean negative = from != Type.ULINT && value < 0;
    if (huge && to != Type.ULINT || negative && to == Type.ULINT) {
      return Faults.raise(cells, place);
    }
    if (to == Type.TIME) {
      return Integers.times(value, Numbers.MICROS_PER_MILLI, Type.TIME, cells, place);
    }
    return to.holds(value) ? value : Faults.raise(cells, place);
  }

  @Override
  boolean failsItself() {
    return operand.type() != Type.BOOL;
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }

  @Override
  int ownBytes() {
    return 20;
  }

  @Override
  void emit(Code code) {
    code.put(operand);
    code.push(operand.type());
    code.push(type());
    code.push(truncates ? 1 : 0);
    code.place(place());
    String type = "Lbufferstop/model/Type;";
    code.call(Conversion.class, "of", "(J" + type + type + "Z[JI)J");
  }
}
