package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** ABS of any number. */
final class Absolute extends Expression {
  private final Expression operand;

  Absolute(Expression operand, SourceText source) {
    super(operand.type(), source);
    this.operand = operand;
  }

  @Override
  long bits(long[] cells, int at) {
    return of(operand.bits(cells, at), type(), cells, place());
  }

  static long of(long bits, Type type, long[] cells, int place) {
    if (type.isReal()) {
      return Reals.kept(Math.abs(Double.longBitsToDouble(bits)), cells, place);
    }
    return type.isSigned() && bits < 0 ? Integers.minus(0, bits, type, cells, place) : bits;
  }

  @Override
  boolean failsItself() {
    return type().isReal() || type().isSigned();
  }

  @Override
  List<Expression> operands() {
    return List.of(operand);
  }

  @Override
  int ownBytes() {
    return 12;
  }

  @Override
  void emit(Code code) {
    code.put(operand);
    code.push(type());
    code.place(place());
    code.call(Absolute.class, "of", "(JLbufferstop/model/Type;[JI)J");
  }
}
