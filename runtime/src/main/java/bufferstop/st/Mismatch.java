package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Type;

/** What to say when types do not agree, and which conversion mends it. */
final class Mismatch {
  private final Typing typing;

  Mismatch(Typing typing) {
    this.typing = typing;
  }

  /** An expression of one type where another is needed. Returns null. */
  Expression wanted(Expression expression, Syntax syntax, Type type, String expected) {
    String quote = typing.quoted(syntax);
    if (syntax instanceof Syntax.Value value && isNear(value.literal(), type)) {
      return typing.wrong(
          Code.OUT_OF_RANGE,
          syntax,
          LiteralReader.outside("`" + quote + "`", type),
          Wording.range(type),
          "");
    }
    return typing.wrong(
        Code.WRONG_TYPE,
        syntax,
        "`" + quote + "` is " + expression.typeName(),
        expected,
        help(syntax, expression.type(), type));
  }

  /** A literal of the right kind, but too large. */
  private static boolean isNear(Literal literal, Type type) {
    return literal instanceof Literal.Whole && (type.isNumber() || type.isBitString())
        || literal instanceof Literal.Real && type.isReal();
  }

  /** Two operands that do not go together, or not with this operator. Returns null. */
  Expression operands(Syntax.Binary binary, Expression left, Expression right) {
    Operator operator = binary.operator();
    Type a = left.type();
    Type b = right.type();
    String deed = Wording.quote(typing.quoted(binary)) + " ";
    return typing.wrong(
        Code.WRONG_TYPE,
        binary,
        deed + operator.does(left.typeName(), right.typeName()),
        expected(operator, a, b),
        a == b && !a.isBitString() ? "" : help(binary, a, b));
  }

  private static String expected(Operator operator, Type left, Type right) {
    if (left == Type.ENUM || right == Type.ENUM) {
      return "`=` or `<>` between values of one enumeration";
    }
    if (operator.isLogic()) {
      return "two BOOLs, or two bit strings of one type";
    }
    return switch (operator) {
      case MODULO -> "two integers of one type";
      case POWER -> "a real to the power of a number";
      case TIMES, DIVIDED ->
          left == Type.TIME || right == Type.TIME
              ? "a TIME, then a number"
              : "two numbers of one type";
      case EQUAL, UNEQUAL -> "two operands of one type";
      default -> "two numbers or two TIMEs of one type";
    };
  }

  private String help(Syntax.Binary binary, Type left, Type right) {
    if (left == Type.TIME && right == Type.ULINT && isScaling(binary.operator())) {
      return "write ULINT_TO_LINT(" + typing.quoted(binary.right()) + ")";
    }
    if (!left.isPlain() || !right.isPlain()) {
      return "";
    }
    if (left.isBitString() || right.isBitString()) {
      return helpOfBits(binary, left, right);
    }
    boolean reversed = binary.operator() == Operator.TIMES && right == Type.TIME;
    if (reversed && (left.isReal() || left.widensTo(Type.LINT))) {
      return "write `" + typing.quoted(binary.right()) + " * " + typing.quoted(binary.left()) + "`";
    }
    if (left == Type.BOOL || right == Type.BOOL) {
      if (isChain(binary)) {
        Syntax.Binary first = (Syntax.Binary) binary.left();
        return "write `%s AND %s %s %s`"
            .formatted(
                typing.quoted(first),
                typing.quoted(first.right()),
                binary.operator().text(),
                typing.quoted(binary.right()));
      }
      boolean isLeft = left == Type.BOOL;
      if (!binary.operator().isComparison()) {
        return help(isLeft ? binary.left() : binary.right(), Type.BOOL, isLeft ? right : left);
      }
      return ofBool(isLeft ? binary.right() : binary.left(), isLeft ? right : left);
    }
    Type target = target(left, right);
    if (left != target && OpenTypes.of(binary.right()) != null) { // a literal follows by itself
      return help(binary.left(), left, target);
    }
    if (left != target && !left.widensTo(target)) {
      return help(binary.left(), left, target);
    }
    return right == target ? "" : help(binary.right(), right, target);
  }

  /** Bit strings are no numbers; one of each becomes the other by what is done with them. */
  private String helpOfBits(Syntax.Binary binary, Type left, Type right) {
    boolean asBits = !isQuantity(binary.operator());
    if (asBits) {
      boolean both = left.isBitString() && right.isBitString();
      boolean toLeft = both ? left.bits() > right.bits() : left.isBitString();
      return toLeft ? help(binary.right(), right, left) : help(binary.left(), left, right);
    }
    return "write "
        + asNumber(binary.left(), left)
        + " "
        + binary.operator().text()
        + " "
        + asNumber(binary.right(), right);
  }

  private static boolean isQuantity(Operator operator) {
    return !operator.isLogic() && operator != Operator.EQUAL && operator != Operator.UNEQUAL;
  }

  private String asNumber(Syntax syntax, Type type) {
    String quote = typing.quoted(syntax);
    return type.isBitString() && OpenTypes.of(syntax) == null
        ? type + "_TO_" + type.number() + "(" + quote + ")"
        : quote;
  }

  private static boolean isScaling(Operator operator) {
    return operator == Operator.TIMES || operator == Operator.DIVIDED;
  }

  /** {@code a < b < c}, which mathematicians write. */
  private static boolean isChain(Syntax.Binary binary) {
    return binary.operator().isComparison()
        && binary.left() instanceof Syntax.Binary first
        && first.operator().isComparison();
  }

  private String ofBool(Syntax other, Type type) {
    if (other instanceof Syntax.Value value && value.literal() instanceof Literal.Whole whole) {
      return switch (whole.value().bitLength()) {
        case 0 -> "write `FALSE` for 0";
        case 1 -> "write `TRUE` for 1";
        default -> "";
      };
    }
    return type.isNumber() ? "write `" + typing.quoted(other) + " <> 0` for a BOOL" : "";
  }

  /** The type both operands should come to. */
  private static Type target(Type left, Type right) {
    if (left == Type.TIME || right == Type.TIME) {
      return Type.TIME;
    }
    if (left.isReal() || right.isReal()) {
      return left.isReal() ? left : right;
    }
    if (left.isSigned() == right.isSigned()) {
      return left.bits() > right.bits() ? left : right;
    }
    int bits = Math.max(left.bits(), right.bits());
    return bits < 16 ? Type.INT : bits < 32 ? Type.DINT : Type.LINT;
  }

  /** How to make an expression of one type one of another; empty when there is no way. */
  private String help(Syntax syntax, Type from, Type to) {
    String quote = typing.quoted(syntax);
    if (to == Type.BOOL && (from.isNumber() || from.isBitString())) {
      return "write `" + quote + " <> 0`";
    }
    if (to == Type.TIME && OpenTypes.of(syntax) != null) {
      return "write a TIME literal with its unit: `T#5s`";
    }
    boolean writes = to == Type.STRING && StringCalls.converts(from.name(), to.name());
    if (writes || Conversion.exists(from, to)) {
      return "write " + from + "_TO_" + to + "(" + quote + ")";
    }
    if (from == Type.TIME && to == Type.REAL) {
      return "write LREAL_TO_REAL(TIME_TO_LREAL(" + quote + "))";
    }
    return from == Type.REAL && to == Type.TIME ? "write LREAL_TO_TIME(" + quote + ")" : "";
  }
}
