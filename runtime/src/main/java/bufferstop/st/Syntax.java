package bufferstop.st;

import java.util.List;
import java.util.Locale;

/** An expression as it is written, before names and types are known. Offsets are into its text. */
sealed interface Syntax {

  int start();

  int end();

  /** A literal, a sign before it already taken in. */
  record Value(Literal literal, int start, int end) implements Syntax {}

  /** A dotted name. */
  record Name(String text, int start, int end) implements Syntax {}

  /**
   * An element of an array.
   *
   * @param name of the array
   * @param nameEnd offset after the name
   */
  record Index(String name, Syntax index, int start, int nameEnd, int end) implements Syntax {}

  /** Brackets, which keep a sign or NOT together with what follows. */
  record Brackets(Syntax inner, int start, int end) implements Syntax {}

  /** NOT. */
  record Complement(Syntax operand, int start, int end) implements Syntax {}

  /** Unary minus of what is no plain literal, or unary plus. */
  record Sign(boolean minus, Syntax operand, int start, int end) implements Syntax {}

  /** Two operands. */
  record Binary(Operator operator, Syntax left, Syntax right, int start, int end)
      implements Syntax {}

  /**
   * A function.
   *
   * @param written its name as written
   * @param nameEnd offset after the name
   */
  record Call(String written, List<Syntax> inputs, int start, int nameEnd, int end)
      implements Syntax {

    /** The name in upper case. */
    String name() {
      return written.toUpperCase(Locale.ROOT);
    }
  }

  /**
   * An input with its name: {@code IN := x}. Inputs of a call alone.
   *
   * @param nameEnd offset after the name
   */
  record Named(String name, Syntax value, int start, int nameEnd, int end) implements Syntax {}

  /** Parts of something already reported; what is wrong inside them still counts. */
  record Remains(List<Syntax> parts, int start, int end) implements Syntax {}

  /** What was already reported. */
  record Broken(int start, int end) implements Syntax {}
}
