package bufferstop.model;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** What may stand as a value in a user's file. */
public sealed interface Shape {

  /** A single value of any kind. */
  record Text() implements Shape {}

  /** A single value that is a name, with dots where it is one below another. */
  record Naming() implements Shape {}

  /**
   * One of a few words.
   *
   * @param anyCase whether upper and lower case are the same
   */
  record Words(List<String> words, boolean anyCase) implements Shape {

    /** Some in any case. */
    public Words(List<String> words) {
      this(words, true);
    }
  }

  /**
   * TRUE or FALSE.
   *
   * @param constants whether it may be made of constants
   */
  record Truth(boolean constants) implements Shape {}

  /** A whole number within bounds. */
  record Whole(long least, long greatest) implements Shape {}

  /** A number within bounds. */
  record Number(double least, double greatest) implements Shape {}

  /**
   * A duration.
   *
   * @param constants whether it may be made of constants
   */
  record Duration(boolean constants) implements Shape {}

  /** A literal of whatever type is wanted there, or what constants come to. */
  record Literal() implements Shape {}

  /** An expression of Structured Text. */
  record Formula() implements Shape {}

  /** A type. */
  record TypeName() implements Shape {}

  /** A name, or a list of names. */
  record NameList() implements Shape {}

  /** A list. */
  record ListOf(Shape items) implements Shape {}

  /** A list of two, the least and the greatest. */
  record Range() implements Shape {}

  /** A mapping with the keys of a form. */
  record Of(Form form) implements Shape {}

  /**
   * A mapping from names of the user's choice.
   *
   * @param identifiers whether the names are identifiers; any otherwise
   */
  record Named(Shape values, boolean identifiers) implements Shape {}

  /** What stands there, or the name of a file beside that holds it. */
  record Section(Shape held) implements Shape {}

  /** One of several. */
  record Either(List<Shape> shapes) implements Shape {}

  /** What stands there, parts of it being filled in by a scenario: parameters and what is drawn. */
  record Filled(Shape within) implements Shape {}

  /** Anything, the settings of a plant for instance. */
  record Anything() implements Shape {}

  Shape TEXT = new Text();
  Shape NAME = new Naming();
  Shape TRUTH = new Truth(false);
  Shape CONSTANT_TRUTH = new Truth(true);
  Shape TIME = new Duration(false);
  Shape CONSTANT_TIME = new Duration(true);
  Shape LITERAL = new Literal();
  Shape FORMULA = new Formula();
  Shape TYPE = new TypeName();
  Shape NAMES = new NameList();
  Shape RANGE = new Range();
  Shape ANYTHING = new Anything();

  /** The words of an enumeration, in lower case. */
  static Shape words(Class<? extends Enum<?>> words) {
    return new Words(
        Arrays.stream(words.getEnumConstants())
            .map(w -> w.name().toLowerCase(Locale.ROOT))
            .toList());
  }

  /** A mapping from identifiers. */
  static Shape named(Shape values) {
    return new Named(values, true);
  }

  /** Either of two. */
  static Shape either(Shape one, Shape other) {
    return new Either(List.of(one, other));
  }
}
