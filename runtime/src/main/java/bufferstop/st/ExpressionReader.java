package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.function.Function;

/** Reads expressions and literals. All problems of a text are found in one pass. */
public final class ExpressionReader {
  private ExpressionReader() {}

  /**
   * Reads an expression of the wanted type, widened to it where the standard allows.
   *
   * @return null when it is wrong; the reasons are added to {@code problems}
   */
  public static Expression read(SourceText text, Scope scope, Type wanted, Diagnostics problems) {
    return read(text, scope, name -> null, wanted, problems);
  }

  /** Reads an expression of whatever type it has; null when it is wrong. */
  public static Expression read(SourceText text, Scope scope, Diagnostics problems) {
    return read(text, scope, name -> null, null, problems);
  }

  /**
   * Reads an expression in which some names stand for expressions already read.
   *
   * @param aliases for a dotted name as written, in any case, what it stands for; null where the
   *     scope decides
   * @param wanted its type; null for any
   * @return null when it is wrong
   */
  public static Expression read(
      SourceText text,
      Scope scope,
      Function<String, Expression> aliases,
      Type wanted,
      Diagnostics problems) {
    Parser parser = new Parser(text, problems);
    if (isEmpty(parser, text, Wording.expression(wanted), problems)) {
      return null;
    }
    Syntax syntax = parser.wholeExpression();
    Typing typing = new Typing(text, new Names(scope, aliases, problems), problems);
    Expression expression = typing.wanted(syntax, wanted);
    return expression == null || parser.hasFailed() ? null : new Whole(expression, text);
  }

  /** Reads what a call gives to an input; null when it is wrong. */
  public static Expression input(
      SourceText text, Scope scope, BlockType.Pin pin, Diagnostics problems) {
    Parser parser = new Parser(text, problems);
    if (isEmpty(parser, text, Wording.expression(pin.type()), problems)) {
      return null;
    }
    Syntax syntax = parser.wholeExpression();
    Typing typing = new Typing(text, new Names(scope, name -> null, problems), problems);
    Expression expression = typing.given(syntax, pin.of());
    return expression == null || parser.hasFailed() ? null : new Whole(expression, text);
  }

  /**
   * Reads a literal alone, with a sign where the literal may have one.
   *
   * @return its value in the encoding of {@link Type}; null after a diagnostic
   */
  public static Long literal(SourceText text, Type wanted, Diagnostics problems) {
    Parser parser = new Parser(text, problems);
    if (isEmpty(parser, text, Wording.article(wanted) + " literal", problems)) {
      return null;
    }
    Syntax syntax = parser.wholeExpression();
    if (parser.hasFailed() || syntax instanceof Syntax.Broken) {
      return null;
    }
    if (!(syntax instanceof Syntax.Value)) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_LITERAL,
                  text.at(syntax.start(), syntax.end()),
                  Wording.quote(text.value()) + " is not a literal")
              .expected(Wording.article(wanted) + " literal"));
      return null;
    }
    Names none = new Names(NoNames.NONE, name -> null, problems);
    Expression value = new Typing(text, none, problems).wanted(syntax, wanted);
    return value == null ? null : value.constant();
  }

  /** Whether the standard has a function of that name, in any case. */
  public static boolean isFunction(String name) {
    return Calls.isStandard(name);
  }

  /**
   * Reads a constant: a literal, or an expression of literals and named constants.
   *
   * @param wanted its type; null for the one it has
   * @param enumeration when that is ENUM
   * @param definitions what it may name
   * @return null after a diagnostic; else with a {@link Expression#constant()}, a STRING with a
   *     {@link Expression#text()}
   */
  public static Expression constant(
      SourceText text,
      Type wanted,
      Enumeration enumeration,
      Definitions definitions,
      Diagnostics problems) {
    Parser parser = new Parser(text, problems);
    if (isEmpty(parser, text, Wording.expression(wanted), problems)) {
      return null;
    }
    Syntax syntax = parser.wholeExpression();
    Typing typing =
        new Typing(text, new Names(new Defined(definitions), name -> null, problems), problems);
    Expression value = typing.wanted(syntax, wanted, enumeration);
    if (value == null || parser.hasFailed()) {
      return null;
    }
    if (value.constant() == null && value.text() == null) {
      return typing.wrong(
          Code.OUT_OF_RANGE,
          syntax,
          Wording.quote(text.value()) + " has no value",
          value.type().isInteger() ? Wording.range(value.type()) : "",
          "");
    }
    boolean unclear = wanted == null && OpenTypes.of(syntax) != null;
    return unclear ? unclearType(text, value, typing, syntax) : value;
  }

  /**
   * Reads the characters of a STRING: as they stand, or between single quotes, with the standard's
   * escapes.
   *
   * @param length most bytes it may have
   * @return null after a diagnostic
   */
  public static String text(SourceText text, int length, Diagnostics problems) {
    String value = text.value();
    boolean quoted = value.length() > 1 && value.startsWith("'") && value.endsWith("'");
    StringLiteral.Characters read =
        StringLiteral.characters(quoted ? value.substring(1, value.length() - 1) : value);
    if (read.complaint() != null) {
      problems.add(Diagnostic.error(Code.BAD_LITERAL, text.whole(), read.complaint()));
    } else if (read.text().length() > length) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  text.whole(),
                  "a text of " + read.text().length() + " characters")
              .expected("at most " + length));
      return null;
    }
    return read.text();
  }

  private static Expression unclearType(
      SourceText text, Expression value, Typing typing, Syntax syntax) {
    return typing.wrong(
        Code.BAD_LITERAL,
        syntax,
        "the type of " + Wording.quote(text.value()) + " is not clear",
        "a literal with its type, or `type` and `value`",
        "write `{type: " + value.type() + ", value: " + text.value() + "}`");
  }

  private static boolean isEmpty(
      Parser parser, SourceText text, String expected, Diagnostics problems) {
    boolean empty = parser.peek().kind() == Token.Kind.END;
    if (empty) {
      problems.add(
          Diagnostic.error(Code.NOTHING_GIVEN, text.whole(), "nothing is written here")
              .expected(expected));
    }
    return empty;
  }
}
