package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;

/** A standard function of one real; outside its domain it fails. */
final class RealFunction extends Expression {
  private final String name;
  private final DoubleUnaryOperator function;
  private final Expression operand;

  /**
   * A call.
   *
   * @param name one for which {@link #exists}
   */
  RealFunction(String name, Expression operand, SourceText source) {
    super(operand.type(), source);
    this.name = name;
    this.function = named(name);
    this.operand = operand;
  }

  /** Whether the standard has a function of one real of that name, upper case. */
  static boolean exists(String name) {
    return named(name) != null;
  }

  private static DoubleUnaryOperator named(String name) {
    return switch (name) {
      case "SQRT" -> StrictMath::sqrt;
      case "LN" -> StrictMath::log;
      case "LOG" -> StrictMath::log10;
      case "EXP" -> StrictMath::exp;
      case "SIN" -> StrictMath::sin;
      case "COS" -> StrictMath::cos;
      case "TAN" -> StrictMath::tan;
      case "ASIN" -> StrictMath::asin;
      case "ACOS" -> StrictMath::acos;
      case "ATAN" -> StrictMath::atan;
      default -> null;
    };
  }

  @Override
  long bits(long[] cells, int at) {
    return Reals.kept(type(), function.applyAsDouble(operand.real(cells, at)), cells, place());
  }

  @Override
  boolean failsItself() {
    return true;
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }

  @Override
  int ownBytes() {
    return 16;
  }

  @Override
  void emit(Code code) {
    code.putReal(operand);
    String method =
        switch (name) {
          case "LN" -> "log";
          case "LOG" -> "log10";
          default -> name.toLowerCase(Locale.ROOT);
        };
    code.call(StrictMath.class, method, "(D)D");
    RealArithmetic.emitKept(type(), place(), code);
  }
}
