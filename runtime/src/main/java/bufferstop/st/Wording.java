package bufferstop.st;

import bufferstop.model.Enumeration;
import bufferstop.model.Type;
import bufferstop.model.Values;

/** Phrases that several diagnostics share. */
final class Wording {
  private static final int LONGEST_QUOTE = 60;

  private Wording() {}

  /** {@code a BOOL expression}, {@code an INT expression}; empty for null. */
  static String expression(Type type) {
    return type == null ? "" : article(type) + " expression";
  }

  /** {@code an INT}. */
  static String article(Type type) {
    return switch (type) {
      case ENUM -> "an enumeration's";
      case INT, LINT, LREAL, LWORD -> "an " + type;
      default -> "a " + type;
    };
  }

  /** {@code a value of `mode`: off, hand}. */
  static String value(Enumeration enumeration) {
    return "a value of `" + enumeration.name() + "`: " + values(enumeration);
  }

  /** The values of an enumeration. */
  static String values(Enumeration enumeration) {
    return String.join(", ", enumeration.values());
  }

  /** The user's text in backquotes, on one line. */
  static String quote(String text) {
    return "`" + inLine(text) + "`";
  }

  /** The user's text on one line, its middle left out when it is long. */
  static String inLine(String text) {
    String line = text.strip().replaceAll("\\s+", " ");
    return line.length() <= LONGEST_QUOTE ? line : line.substring(0, LONGEST_QUOTE - 3) + "...";
  }

  /** The range of a type as diagnostics give it. */
  static String range(Type type) {
    return switch (type) {
      case REAL -> "a single-precision number, integers up to 16777216 exactly";
      case LREAL -> "a double-precision number";
      default -> Values.print(type, type.least()) + " to " + Values.print(type, type.greatest());
    };
  }
}
