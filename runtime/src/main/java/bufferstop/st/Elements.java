package bufferstop.st;

import bufferstop.model.ArrayBounds;
import bufferstop.model.ArrayOf;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.ValueType;

/** Reads elements of arrays, in expressions and as targets of assignments. */
final class Elements {
  private final Typing typing;
  private final Names names;
  private final Diagnostics problems;

  Elements(Typing typing, Names names, Diagnostics problems) {
    this.typing = typing;
    this.names = names;
    this.problems = problems;
  }

  /**
   * An element that is meant.
   *
   * @param known its symbol when the index is constant, else null
   * @param index when it is not
   */
  record Place(ArrayOf array, Symbol known, Expression index) {}

  /** The value of an element, or null after a diagnostic. */
  Expression read(Syntax.Index syntax) {
    Place place = place(syntax);
    if (place == null) {
      return null;
    }
    SourceText source = typing.source(syntax);
    return place.known != null
        ? Names.read(place.known, source)
        : new Element(place.array, place.index, source);
  }

  /** Which element is meant, or null after a diagnostic. */
  Place place(Syntax.Index syntax) {
    ArrayOf array = names.array(syntax.name());
    if (array == null) {
      names.noArray(syntax.name(), typing.place(syntax.start(), syntax.nameEnd()));
    }
    Expression index = index(syntax.index());
    if (array == null || index == null) {
      return null;
    }
    Long constant = index.constant();
    if (constant == null) {
      return new Place(array, null, index);
    }
    ArrayBounds bounds = array.bounds();
    if (constant >= bounds.least() && constant <= bounds.greatest()) {
      return new Place(array, names.element(array, constant), null);
    }
    problems.add(
        Diagnostic.error(
                Code.OUT_OF_RANGE,
                typing.place(syntax),
                Wording.quote(typing.quoted(syntax)) + " is outside `" + bounds.name() + "`")
            .expected("an index from " + bounds.least() + " to " + bounds.greatest())
            .note(bounds.position(), "`" + bounds.name() + "` is declared here"));
    return null;
  }

  /** Whether it names an array. */
  boolean isArray(Syntax syntax) {
    return syntax instanceof Syntax.Name name && names.array(name.text()) != null;
  }

  /** An array as a whole, of the size and type of the wanted one; null after a diagnostic. */
  Expression whole(Syntax syntax, ValueType wanted) {
    ArrayOf array = syntax instanceof Syntax.Name name ? names.array(name.text()) : null;
    if (array == null) {
      return syntax instanceof Syntax.Broken || isDoubted(syntax)
          ? null
          : typing.wrong(
              Code.WRONG_THING,
              syntax,
              Wording.quote(typing.quoted(syntax)) + " is no array",
              wanted.words(),
              "");
    }
    ValueType type = array.type();
    boolean alike =
        type.bounds().count() == wanted.bounds().count()
            && array.first().typeName().equals(wanted.element().words());
    return alike
        ? new FirstCell(array.first(), typing.source(syntax))
        : typing.wrong(
            Code.WRONG_TYPE,
            syntax,
            Wording.quote(typing.quoted(syntax)) + " is " + type.words(),
            wanted.words(),
            "");
  }

  private boolean isDoubted(Syntax syntax) {
    return syntax instanceof Syntax.Name name && problems.doubts(name.text());
  }

  private Expression index(Syntax syntax) {
    Expression index = typing.type(syntax, null);
    if (index == null || index.type().isInteger() && index.type() != Type.ULINT) {
      return index;
    }
    String quote = typing.quoted(syntax);
    return typing.wrong(
        Code.WRONG_TYPE,
        syntax,
        Wording.quote(quote) + " is " + index.typeName(),
        "an integer as index",
        index.type() == Type.ULINT ? "write ULINT_TO_LINT(" + quote + ")" : "");
  }
}
