package bufferstop.st;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads Structured Text statements: assignments, IF with ELSIF and ELSE, empty statements. After a
 * problem it goes on at the next {@code ;}, so that all problems are found in one pass.
 */
public final class StatementReader {
  private static final int DEEPEST = 100;
  private static final List<String> BRANCH_ENDS = List.of("ELSIF", "ELSE", "END_IF");

  private final SourceText text;
  private final Assignable assignable;
  private final Diagnostics problems;
  private final Parser parser;
  private final Names names;
  private final Typing typing;
  private final List<Program.Write> writes = new ArrayList<>();
  private int depth;

  private StatementReader(
      SourceText text, Scope scope, Assignable assignable, Diagnostics problems) {
    this.text = text;
    this.assignable = assignable;
    this.problems = problems;
    this.parser = new Parser(text, problems);
    this.names = new Names(scope, name -> null, problems);
    this.typing = new Typing(text, names, problems);
  }

  /**
   * Reads statements.
   *
   * @param assignable which symbols they may assign
   * @return never null; after errors in {@code problems} it holds the statements that were right
   *     and must not be run
   */
  public static Program read(
      SourceText text, Scope scope, Assignable assignable, Diagnostics problems) {
    StatementReader reader = new StatementReader(text, scope, assignable, problems);
    return new Program(reader.all(), reader.writes);
  }

  private Statement all() {
    List<Statement> statements = new ArrayList<>();
    while (parser.peek().kind() != Token.Kind.END) {
      statements.add(list());
      Token token = parser.peek();
      if (token.kind() != Token.Kind.END) { // list() stops only here and where a branch ends
        problems.add(
            Diagnostic.error(parser.place(token), "`" + token.text() + "` without an `IF`"));
        skip();
      }
    }
    return new Statement.Sequence(statements);
  }

  /** Statements up to where a branch ends, or the text. */
  private Statement list() {
    List<Statement> statements = new ArrayList<>();
    while (parser.peek().kind() != Token.Kind.END && !BRANCH_ENDS.contains(keyword())) {
      Statement statement = one();
      if (statement != null) {
        statements.add(statement);
      }
    }
    return new Statement.Sequence(statements);
  }

  private String keyword() {
    Token token = parser.peek();
    return token.kind() == Token.Kind.KEYWORD ? token.text() : "";
  }

  private Statement one() {
    if (parser.takeIf(";")) {
      return null;
    }
    parser.recover();
    Token token = parser.peek();
    Statement statement = null;
    if (token.kind() == Token.Kind.NAME || token.kind() == Token.Kind.BROKEN_VALUE) {
      statement = assignment(parser.take());
    } else if (token.is("IF")) {
      statement = depth < DEEPEST ? branches(parser.take()) : tooDeep();
    } else {
      noStatement(token);
    }
    end();
    return statement;
  }

  private void noStatement(Token token) {
    boolean other = token.kind() == Token.Kind.KEYWORD;
    parser.fail(
        Diagnostic.error(
                parser.place(token),
                other
                    ? "`" + token.text() + "` is no statement here"
                    : "a statement starts with " + Parser.found(token))
            .expected("an assignment `name := value;` or `IF`"));
    skipLoop(token);
  }

  /** Skips a loop or CASE as a whole, since what is inside makes no sense without it. */
  private void skipLoop(Token token) {
    String end = "END_" + token.text();
    if (List.of("END_CASE", "END_FOR", "END_WHILE", "END_REPEAT").contains(end)) {
      while (parser.peek().kind() != Token.Kind.END && !parser.peek().is(end)) {
        parser.take();
      }
    }
  }

  private Statement tooDeep() {
    Token token = parser.take();
    parser.fail(
        Diagnostic.error(parser.place(token), "`IF` is nested too deep")
            .expected("at most " + DEEPEST + " inside each other"));
    while (parser.peek().kind() != Token.Kind.END) {
      parser.take();
    }
    return null;
  }

  private Statement assignment(Token name) {
    Symbol target = target(name);
    if (!parser.takeIf(":=")) {
      Token token = parser.peek();
      parser.fail(
          Diagnostic.error(parser.place(token), "`:=` is missing before " + Parser.found(token))
              .help(token.is("=") ? "`=` compares; write `" + name.text() + " := ...`" : ""));
      return null;
    }
    Syntax syntax = parser.expression();
    Expression value = typing.wanted(syntax, target == null ? null : target.type());
    return target == null || value == null || parser.hasFailed()
        ? null
        : new Statement.Assignment(target, value);
  }

  /** The symbol to assign, or null after a diagnostic. */
  private Symbol target(Token name) {
    if (name.kind() == Token.Kind.BROKEN_VALUE) {
      return null;
    }
    Symbol symbol = names.symbol(name.text(), parser.place(name), null, "a name to assign");
    String refusal = symbol == null ? null : assignable.refusal(symbol);
    if (refusal != null) {
      Diagnostic refused =
          Diagnostic.error(
              parser.place(name), "`" + name.text() + "` cannot be assigned: " + refusal);
      problems.add(
          symbol.declared() == null
              ? refused
              : refused.note(symbol.declared(), "`" + symbol.name() + "` is declared here"));
    } else if (symbol != null && writes.stream().noneMatch(w -> w.symbol().equals(symbol))) {
      writes.add(new Program.Write(symbol, parser.place(name)));
    }
    return symbol;
  }

  /** From after IF or ELSIF to END_IF. */
  private Statement branches(Token start) {
    depth++;
    Whole condition = condition();
    Statement then = list();
    Statement otherwise = new Statement.Sequence(List.of());
    if (keyword().equals("ELSIF")) {
      otherwise = depth < DEEPEST ? branches(parser.take()) : tooDeep();
    } else {
      if (parser.takeIf("ELSE")) {
        otherwise = list();
      }
      close(start);
    }
    depth--;
    return condition == null || otherwise == null
        ? null
        : new Statement.If(condition, then, otherwise);
  }

  private Whole condition() {
    Syntax syntax = parser.expression();
    Expression condition = typing.wanted(syntax, Type.BOOL);
    if (!parser.hasFailed() && !parser.peek().is("THEN")) {
      Token token = parser.peek();
      parser.fail(
          Diagnostic.error(parser.place(token), "`THEN` is missing before " + Parser.found(token)));
    }
    boolean failed = parser.hasFailed();
    if (failed) {
      skipTo("THEN");
    }
    parser.takeIf("THEN");
    parser.recover();
    return condition == null || failed ? null : new Whole(condition, typing.source(syntax));
  }

  private void close(Token start) {
    parser.recover();
    if (!parser.takeIf("END_IF")) {
      Token token = parser.peek();
      parser.fail(
          Diagnostic.error(parser.place(token), "`END_IF` is missing before " + Parser.found(token))
              .note(text.at(start.start(), start.end()), "for this `" + start.text() + "`"));
    }
  }

  /** The {@code ;} after a statement. */
  private void end() {
    if (parser.hasFailed()) {
      skip();
    } else if (!parser.takeIf(";")) {
      Token token = parser.peek();
      parser.fail(
          Diagnostic.error(
              text.at(parser.last().start(), parser.last().end()),
              "`;` is missing after `" + parser.last().text() + "`"));
      if (token.kind() != Token.Kind.NAME && !token.is("IF")) {
        skip();
      }
    }
    parser.recover();
  }

  private void skip() {
    skipTo(";");
    parser.takeIf(";");
    parser.recover();
  }

  /** Goes to the word, but never past a {@code ;} or what ends a branch after it was begun. */
  private void skipTo(String word) {
    if (BRANCH_ENDS.contains(keyword()) && word.equals(";") && depth == 0) {
      parser.take();
    }
    while (parser.peek().kind() != Token.Kind.END
        && !parser.peek().is(word)
        && !parser.peek().is(";")
        && !BRANCH_ENDS.contains(keyword())) {
      parser.take();
    }
  }
}
