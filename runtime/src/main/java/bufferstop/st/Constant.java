package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** A literal. */
final class Constant extends Expression {
  private final long bits;

  Constant(Type type, long bits, SourceText source) {
    super(type, source);
    this.bits = bits;
  }

  static Constant real(Type type, double value, SourceText source) {
    return new Constant(type, Double.doubleToLongBits(value), source);
  }

  @Override
  public long bits(long[] cells) {
    return bits;
  }

  @Override
  List<Expression> operands() {
    return List.of();
  }
}
