package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import org.objectweb.asm.Opcodes;

/**
 * {@code + - * /} of two reals of one type, and {@code **} of a real and any number. Single
 * precision is computed in double and rounded once, which gives the correctly rounded single for
 * the first four.
 */
final class RealArithmetic extends TwoOperands {

  RealArithmetic(Operator operator, Expression left, Expression right, SourceText source) {
    super(left.type(), operator, left, right, source);
  }

  @Override
  long bits(long[] cells, int at) {
    double a = left.real(cells, at);
    double b = right.real(cells, at);
    return switch (operator) {
      case PLUS -> Reals.kept(type(), a + b, cells, place());
      case MINUS -> Reals.kept(type(), a - b, cells, place());
      case TIMES -> Reals.kept(type(), a * b, cells, place());
      case DIVIDED ->
          type() == Type.REAL
              ? Reals.dividedSingle(a, b, cells, place())
              : Reals.divided(a, b, cells, place());
      case POWER -> Reals.kept(type(), Power.of(a, b), cells, place());
      default -> throw unknown();
    };
  }

  @Override
  boolean failsItself() {
    return true;
  }

  @Override
  int ownBytes() {
    return 24;
  }

  @Override
  void emit(Code code) {
    code.putReal(left);
    code.putReal(right);
    String rounds = type() == Type.REAL ? "Single" : "";
    if (operator == Operator.DIVIDED) {
      code.place(place());
      code.call(Reals.class, "divided" + rounds, "(DD[JI)J");
      return;
    }
    switch (operator) {
      case PLUS -> code.op(Opcodes.DADD);
      case MINUS -> code.op(Opcodes.DSUB);
      case TIMES -> code.op(Opcodes.DMUL);
      case POWER -> code.call(Power.class, "of", "(DD)D");
      default -> throw unknown();
    }
    emitKept(type(), place(), code);
  }

  /** Rounds the double on the stack to the type, as bits; not finite is an error. */
  static void emitKept(Type type, int place, Code code) {
    code.place(place);
    code.call(Reals.class, type == Type.REAL ? "keptSingle" : "kept", "(D[JI)J");
  }
}
