package bufferstop.st;

import java.util.SplittableRandom;

/** A random BOOL expression with its value; without an operator it is a name or NOT of the left. */
record BoolTree(Operator operator, BoolTree left, BoolTree right, String name, boolean leaf) {
  private static final Operator[] OPERATORS = {
    Operator.AND, Operator.XOR, Operator.OR, Operator.EQUAL, Operator.UNEQUAL
  };

  static BoolTree random(SplittableRandom random, Cells cells, int depth) {
    if (depth == 0 || random.nextInt(5) == 0) {
      String name = String.valueOf("abc".charAt(random.nextInt(3)));
      return new BoolTree(null, null, null, name, cells.get(name) == 1);
    }
    BoolTree left = random(random, cells, depth - 1);
    if (random.nextInt(5) == 0) {
      return new BoolTree(null, left, null, null, false);
    }
    BoolTree right = random(random, cells, depth - 1);
    return new BoolTree(OPERATORS[random.nextInt(OPERATORS.length)], left, right, null, false);
  }

  String text(int loosest) {
    if (name != null) {
      return name;
    }
    if (operator == null) {
      return "NOT " + left.text(3);
    }
    String text =
        left.text(operator.level())
            + " "
            + operator.text()
            + " "
            + right.text(operator.level() - 1);
    return operator.level() > loosest ? "(" + text + ")" : text;
  }

  boolean value() {
    if (name != null) {
      return leaf;
    }
    boolean a = left.value();
    if (operator == null) {
      return !a;
    }
    boolean b = right.value();
    return switch (operator) {
      case AND -> a && b;
      case OR -> a || b;
      case EQUAL -> a == b;
      default -> a != b;
    };
  }
}
