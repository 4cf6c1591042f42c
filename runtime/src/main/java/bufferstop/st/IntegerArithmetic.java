package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import org.objectweb.asm.Opcodes;

/** {@code + - * / MOD} of two integers of one type, and {@code + -} of two TIMEs. */
final class IntegerArithmetic extends TwoOperands {

  IntegerArithmetic(Operator operator, Expression left, Expression right, SourceText source) {
    super(left.type(), operator, left, right, source);
  }

  @Override
  long bits(long[] cells, int at) {
    Type type = type();
    long a = left.bits(cells, at);
    long b = right.bits(cells, at);
    return switch (operator) {
      case PLUS -> Integers.plus(a, b, type, cells, place());
      case MINUS -> Integers.minus(a, b, type, cells, place());
      case TIMES -> Integers.times(a, b, type, cells, place());
      case DIVIDED -> Integers.divided(a, b, type, cells, place());
      case MODULO -> Integers.modulo(a, b, type);
      default -> throw unknown();
    };
  }

  @Override
  boolean failsItself() {
    return operator != Operator.MODULO;
  }

  @Override
  int ownBytes() {
    return 24;
  }

  @Override
  void emit(Code code) {
    putBoth(code);
    if (fitsLong()) {
      code.op(
          switch (operator) {
            case PLUS -> Opcodes.LADD;
            case MINUS -> Opcodes.LSUB;
            default -> Opcodes.LMUL;
          });
      emitWithin(type(), place(), code);
      return;
    }
    code.push(type());
    if (operator == Operator.MODULO) {
      code.call(Integers.class, "modulo", "(JJLbufferstop/model/Type;)J");
      return;
    }
    code.place(place());
    String name =
        switch (operator) {
          case PLUS -> "plus";
          case MINUS -> "minus";
          case TIMES -> "times";
          case DIVIDED -> "divided";
          default -> throw unknown();
        };
    code.call(Integers.class, name, "(JJLbufferstop/model/Type;[JI)J");
  }

  /** Checks that the result on the stack is inside the type. */
  static void emitWithin(Type type, int place, Code code) {
    code.push(type.least());
    code.push(type.greatest());
    code.place(place);
    code.call(Integers.class, "within", "(JJJ[JI)J");
  }

  /** Whether any result has room in 64 bits, so that one comparison with the range is enough. */
  private boolean fitsLong() {
    return switch (operator) {
      case PLUS, MINUS -> type().bits() <= 32;
      case TIMES -> type().bits() <= 32 && type() != Type.UDINT;
      default -> false;
    };
  }
}
