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

  @Override
  long bits(long[] cells, int at) {
    return bits;
  }

  @Override
  List<Expression> operands() {
    return List.of();
  }

  @Override
  int ownBytes() {
    return 3;
  }

  @Override
  void emit(Code code) {
    code.push(bits);
  }
}
