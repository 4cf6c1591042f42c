package bufferstop.st;

import bufferstop.model.Type;
import java.math.BigInteger;
import java.util.SplittableRandom;

/** A random integer expression with its exact value, null when any operation leaves the type. */
record IntegerTree(
    Operator operator,
    IntegerTree left,
    IntegerTree right,
    String name,
    Type type,
    BigInteger leaf) {
  private static final Operator[] OPERATORS = {
    Operator.PLUS, Operator.MINUS, Operator.TIMES, Operator.DIVIDED, Operator.MODULO
  };

  static IntegerTree random(SplittableRandom random, Type type, Cells cells, int depth) {
    if (depth == 0 || random.nextInt(4) == 0) {
      String name = String.valueOf("abc".charAt(random.nextInt(3)));
      BigInteger value = new BigInteger(Cells.print(type, cells.get(name)));
      return new IntegerTree(null, null, null, name, type, value);
    }
    IntegerTree left = random(random, type, cells, depth - 1);
    if (random.nextInt(6) == 0) {
      return new IntegerTree(null, left, null, null, type, null);
    }
    IntegerTree right = random(random, type, cells, depth - 1);
    Operator operator = OPERATORS[random.nextInt(OPERATORS.length)];
    return new IntegerTree(operator, left, right, null, type, null);
  }

  /** With no more brackets than needed where operators up to that level may stand. */
  String text(int loosest) {
    if (name != null) {
      return name;
    }
    if (operator == null) {
      return "-" + left.text(3);
    }
    String text =
        left.text(operator.level())
            + " "
            + operator.text()
            + " "
            + right.text(operator.level() - 1);
    return operator.level() > loosest ? "(" + text + ")" : text;
  }

  BigInteger value() {
    if (name != null) {
      return leaf;
    }
    BigInteger a = left.value();
    BigInteger b = operator == null ? BigInteger.ZERO : right.value();
    BigInteger result = a == null || b == null ? null : exact(a, b);
    return result == null || result.compareTo(least()) < 0 || result.compareTo(greatest()) > 0
        ? null
        : result;
  }

  private BigInteger exact(BigInteger a, BigInteger b) {
    if (operator == null) {
      return a.negate();
    }
    return switch (operator) {
      case PLUS -> a.add(b);
      case MINUS -> a.subtract(b);
      case TIMES -> a.multiply(b);
      case DIVIDED -> b.signum() == 0 ? null : a.divide(b);
      default -> b.signum() == 0 ? b : a.remainder(b);
    };
  }

  private BigInteger least() {
    return type.isSigned() ? BigInteger.TWO.pow(type.bits() - 1).negate() : BigInteger.ZERO;
  }

  private BigInteger greatest() {
    int bits = type.isSigned() ? type.bits() - 1 : type.bits();
    return BigInteger.TWO.pow(bits).subtract(BigInteger.ONE);
  }
}
