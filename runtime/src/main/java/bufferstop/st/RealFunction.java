package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/** A standard function of one real; outside its domain it fails. */
final class RealFunction extends Expression {
  private final DoubleUnaryOperator function;
  private final Expression operand;

  RealFunction(DoubleUnaryOperator function, Expression operand, SourceText source) {
    super(operand.type(), source);
    this.function = function;
    this.operand = operand;
  }

  /** The function of that standard name, upper case, or null. */
  static DoubleUnaryOperator named(String name) {
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
  public long bits(long[] cells) {
    return Reals.kept(cells, type(), function.applyAsDouble(operand.real(cells)));
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }
}
