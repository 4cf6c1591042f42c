package bufferstop.st;

/**
 * The operators between two operands and how tightly they bind, 1 the tightest. Source: IEC
 * 61131-3:2003, 3.3.1, Table 55 [re-read].
 */
enum Operator {
  POWER("**", 4, "raises %s to the power of %s"),
  TIMES("*", 5, "multiplies %s and %s"),
  DIVIDED("/", 5, "divides %s by %s"),
  MODULO("MOD", 5, "takes %s modulo %s"),
  PLUS("+", 6, "adds %s and %s"),
  MINUS("-", 6, "subtracts %2$s from %1$s"),
  LESS("<", 7, "compares %s with %s"),
  GREATER(">", 7, "compares %s with %s"),
  AT_MOST("<=", 7, "compares %s with %s"),
  AT_LEAST(">=", 7, "compares %s with %s"),
  EQUAL("=", 8, "compares %s with %s"),
  UNEQUAL("<>", 8, "compares %s with %s"),
  AND("AND", 9, "joins %s and %s"),
  XOR("XOR", 10, "joins %s and %s"),
  OR("OR", 11, "joins %s and %s");

  static final int LOOSEST = 11;

  private final String text;
  private final int level;
  private final String deed;

  Operator(String text, int level, String deed) {
    this.text = text;
    this.level = level;
    this.deed = deed;
  }

  String text() {
    return text;
  }

  int level() {
    return level;
  }

  /** What it does to operands of these types, for messages. */
  String does(Object left, Object right) {
    return deed.formatted(left, right);
  }

  boolean isLogic() {
    return level >= AND.level;
  }

  boolean isComparison() {
    return level == LESS.level || level == EQUAL.level;
  }

  /** Whether a comparison holds between values of this order, as {@link Long#compare} gives it. */
  boolean holds(int order) {
    return switch (this) {
      case LESS -> order < 0;
      case GREATER -> order > 0;
      case AT_MOST -> order <= 0;
      case AT_LEAST -> order >= 0;
      case EQUAL -> order == 0;
      default -> order != 0;
    };
  }

  /** The operator so written, upper case, or null. */
  static Operator written(String text) {
    if (text.equals("&")) {
      return AND;
    }
    for (Operator operator : values()) {
      if (operator.text.equals(text)) {
        return operator;
      }
    }
    return null;
  }
}
