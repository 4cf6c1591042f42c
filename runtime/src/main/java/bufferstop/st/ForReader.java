package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Symbol;
import bufferstop.model.Type;

/** Reads one FOR. */
final class ForReader {
  private final StatementReader statements;
  private final Parser parser;
  private final Typing typing;
  private final Diagnostics problems;

  ForReader(StatementReader statements, Parser parser, Typing typing, Diagnostics problems) {
    this.statements = statements;
    this.parser = parser;
    this.typing = typing;
    this.problems = problems;
  }

  /** From after FOR to END_FOR; null when it cannot be run. */
  For read(Token start) {
    Token name = parser.peek();
    Symbol control = control();
    Type type = control == null ? null : control.type();
    Expression first = afterWord(":=", type);
    Expression last = afterWord("TO", type);
    Long step = parser.peek().is("BY") ? step(type) : Long.valueOf(1);
    boolean written = statements.endHead("DO");
    Statement body = statements.body(control, typing.place(name.start(), name.end()));
    statements.close(start, "END_FOR");
    int place = problems.placeOf(typing.part(name.start(), name.end()));
    boolean whole = written && control != null && first != null && last != null && step != null;
    return whole ? new For(control, first, last, step, body, place) : null;
  }

  /** The variable, or null after a diagnostic. */
  private Symbol control() {
    Token name = parser.peek();
    if (name.kind() != Token.Kind.NAME && name.kind() != Token.Kind.BROKEN_VALUE) {
      parser.fail(
          Diagnostic.error(
                  Code.SYNTAX,
                  parser.place(name),
                  "a variable is missing before " + Parser.found(name))
              .expected("`FOR name := first TO last DO`"));
      return null;
    }
    Symbol symbol = statements.target(parser.take());
    if (symbol == null || symbol.type().isInteger()) {
      return symbol;
    }
    typing.wrong(
        Code.WRONG_TYPE,
        parser.place(name),
        "`" + name.text() + "` is " + symbol.type(),
        "an integer variable",
        "");
    return null;
  }

  /** The word and the expression after it; null after a diagnostic. */
  private Expression afterWord(String word, Type type) {
    if (parser.hasFailed()) {
      return null;
    }
    if (!parser.takeIf(word)) {
      Token token = parser.peek();
      parser.fail(
          Diagnostic.error(
              Code.SYNTAX,
              parser.place(token),
              "`" + word + "` is missing before " + Parser.found(token)));
      return null;
    }
    return typing.wanted(parser.expression(), type);
  }

  private Long step(Type type) {
    int start = parser.peekSecond().start();
    Expression step = afterWord("BY", type);
    if (step == null || parser.hasFailed()) {
      return null;
    }
    Long constant = step.constant();
    if (constant == null || constant == 0) {
      problems.add(
          Diagnostic.error(
                  Code.WRONG_TYPE,
                  typing.place(start, parser.last().end()),
                  Wording.quote(step.source().value())
                      + (constant != null ? " is no step" : " is no constant"))
              .expected("a constant other than 0"));
      return null;
    }
    return constant;
  }
}
