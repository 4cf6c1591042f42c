package bufferstop.st;

import java.util.SplittableRandom;

/** A random LREAL expression with its value, null when any operation has none. */
record RealTree(Operator operator, RealTree left, RealTree right, String name, double leaf) {
  private static final Operator[] OPERATORS = {
    Operator.PLUS, Operator.MINUS, Operator.TIMES, Operator.DIVIDED, Operator.POWER
  };

  static RealTree random(SplittableRandom random, Cells cells, int depth) {
    if (depth == 0 || random.nextInt(4) == 0) {
      String name = String.valueOf("abc".charAt(random.nextInt(3)));
      return new RealTree(null, null, null, name, Double.longBitsToDouble(cells.get(name)));
    }
    RealTree left = random(random, cells, depth - 1);
    if (random.nextInt(6) == 0) {
      return new RealTree(null, left, null, null, 0);
    }
    RealTree right = random(random, cells, depth - 1);
    return new RealTree(OPERATORS[random.nextInt(OPERATORS.length)], left, right, null, 0);
  }

  private boolean isNegation() {
    return name == null && operator == null;
  }

  String text(int loosest) {
    if (name != null) {
      return name;
    }
    if (isNegation()) {
      return "-" + left.text(3);
    }
    String text = base() + " " + operator.text() + " " + exponent();
    return operator.level() > loosest ? "(" + text + ")" : text;
  }

  /** A sign on the left of ** needs brackets, also at the end of a chain of powers. */
  private String base() {
    RealTree last = left;
    if (operator == Operator.POWER && left.operator == Operator.POWER) {
      last = left.right;
    }
    boolean signed = operator == Operator.POWER && last.isNegation();
    return signed ? "(" + left.text(Operator.LOOSEST) + ")" : left.text(operator.level());
  }

  private String exponent() {
    return right.text(operator.level() - 1);
  }

  Double value() {
    if (name != null) {
      return leaf;
    }
    Double a = left.value();
    Double b = isNegation() ? Double.valueOf(0) : right.value();
    if (a == null || b == null || operator == Operator.DIVIDED && b == 0) {
      return null;
    }
    double result = isNegation() ? -a : of(a, b);
    return Double.isNaN(result) || Double.isInfinite(result) ? null : result;
  }

  private double of(double a, double b) {
    return switch (operator) {
      case PLUS -> a + b;
      case MINUS -> a - b;
      case TIMES -> a * b;
      case DIVIDED -> a / b;
      default -> StrictMath.pow(a, b);
    };
  }
}
