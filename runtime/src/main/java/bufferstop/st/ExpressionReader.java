package bufferstop.st;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
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

  private static boolean isEmpty(
      Parser parser, SourceText text, String expected, Diagnostics problems) {
    boolean empty = parser.peek().kind() == Token.Kind.END;
    if (empty) {
      problems.add(Diagnostic.error(text.whole(), "nothing is written here").expected(expected));
    }
    return empty;
  }
}
