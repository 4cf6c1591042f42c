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
  public long bits(long[] cells) {
    long bits = operand.bits(cells);
    return switch (operand.type()) {
      case REAL, LREAL -> ofReal(cells, Double.longBitsToDouble(bits));
      case TIME -> ofTime(cells, bits);
      default -> ofInteger(cells, operand.type(), bits);
    };
  }

  private long ofReal(long[] cells, double value) {
    if (type().isReal()) {
      return Reals.kept(cells, type(), value);
    }
    double inUnits = type() == Type.TIME ? value * Numbers.MICROS_PER_MILLI : value;
    return Reals.toInteger(cells, type(), truncates ? truncated(value) : StrictMath.rint(inUnits));
  }

  private static double truncated(double value) {
    return value < 0 ? StrictMath.ceil(value) : StrictMath.floor(value);
  }

  private long ofTime(long[] cells, long micros) {
    if (type() == Type.LREAL) {
      return Double.doubleToLongBits(micros / (double) Numbers.MICROS_PER_MILLI);
    }
    return ofInteger(cells, Type.LINT, Numbers.nearestMilli(micros));
  }

  private long ofInteger(long[] cells, Type from, long value) {
    if (type().isReal()) {
      return Double.doubleToLongBits(Numbers.ofInteger(from, value, type()));
    }
    boolean huge = from == Type.ULINT && value < 0;
    boolean negative = from != Type.ULINT && value < 0;
    if (huge && type() != Type.ULINT || negative && type() == Type.ULINT) {
      return Faults.raise(cells);
    }
    if (type() == Type.TIME) {
      return Integers.times(cells, Type.TIME, value, Numbers.MICROS_PER_MILLI);
    }
    return type().holds(value) ? value : Faults.raise(cells);
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }
}
