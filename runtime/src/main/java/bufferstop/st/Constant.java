package bufferstop.st;

import bufferstop.model.Enumeration;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** A literal or a named constant. */
final class Constant extends Expression {
  private final long bits;
  private final Enumeration enumeration;

  Constant(Type type, long bits, SourceText source) {
    this(type, null, bits, source);
  }

  Constant(Type type, Enumeration enumeration, long bits, SourceText source) {
    super(type, source);
    this.enumeration = enumeration;
    this.bits = bits;
  }

  @Override
  public Enumeration enumeration() {
    return enumeration;
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
