package bufferstop.st;

import bufferstop.model.ArrayOf;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.NamedConstant;
import bufferstop.model.Position;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Reads Structured Text statements: assignments, calls of blocks, IF with ELSIF and ELSE, CASE,
 * FOR, EXIT, CONTINUE, RETURN, empty ones. After a problem it goes on at the next {@code ;}, so
 * that all problems are found in one pass.
 */
public final class StatementReader {
  private static final int DEEPEST = 100;

  private final SourceText text;
  private final Assignable assignable;
  private final Diagnostics problems;
  private final Parser parser;
  private final Names names;
  private final Typing typing;
  private final boolean isBody;
  private final List<Program.Write> writes = new ArrayList<>();
  private final List<Program.BlockCall> blockCalls = new ArrayList<>();
  private final Set<String> written = new TreeSet<>(); // names of what is in writes
  private final AssignmentReader assignments;
  private final Map<Symbol, Position> controls = new LinkedHashMap<>(); // of the loops around
  private final Deque<Token> open = new ArrayDeque<>(); // the words that begin what is not closed

  private StatementReader(
      SourceText text, Scope scope, Assignable assignable, boolean isBody, Diagnostics problems) {
    this.text = text;
    this.assignable = assignable;
    this.isBody = isBody;
    this.problems = problems;
    this.parser = new Parser(text, problems);
    this.names = new Names(scope, name -> null, problems);
    this.typing = new Typing(text, names, problems);
    this.assignments = new AssignmentReader(this, parser, typing, names, problems);
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
    return new StatementReader(text, scope, assignable, false, problems).program();
  }

  /** Reads the body of a function or block, which RETURN leaves; otherwise likewise. */
  public static Program body(
      SourceText text, CallScope scope, Assignable assignable, Diagnostics problems) {
    return new StatementReader(text, scope, assignable, true, problems).program();
  }

  private Program program() {
    return new Program(all(), writes, blockCalls, typing.called());
  }

  private Statement all() {
    return list(); // without anything open only the end of the text ends it
  }

  /** Statements up to what ends something open, a label of the CASE they are in, or the end. */
  Statement list() {
    List<Statement> statements = new ArrayList<>();
    while (parser.peek().kind() != Token.Kind.END && !endsOpen() && !labelAhead()) {
      Statement statement = one();
      if (statement != null) {
        statements.add(statement);
      }
    }
    return new Statement.Sequence(statements);
  }

  /** Whether the next word ends a part of anything open, however far outside. */
  private boolean endsOpen() {
    return switch (keyword()) {
      case "ELSIF", "END_IF" -> isOpen("IF");
      case "ELSE" -> isOpen("IF") || isOpen("CASE");
      case "END_CASE" -> isOpen("CASE");
      case "END_FOR" -> isOpen("FOR");
      default -> false;
    };
  }

  private boolean isOpen(String word) {
    return open.stream().anyMatch(token -> token.is(word));
  }

  /** Whether what follows can only be a label of the CASE that was opened last. */
  boolean labelAhead() {
    if (open.isEmpty() || !open.peek().is("CASE")) {
      return false;
    }
    Token token = parser.peek();
    return switch (token.kind()) {
      case LITERAL -> true;
      case NAME, BROKEN_VALUE -> List.of(":", ",", "..").contains(parser.peekSecond().text());
      default -> List.of("-", "+", "(", "TRUE", "FALSE").stream().anyMatch(token::is);
    };
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
    if (!startsStatement(token)) {
      noStatement(token);
    } else if (token.kind() != Token.Kind.KEYWORD) {
      Token name = parser.take();
      statement = parser.peek().is("(") ? call(name) : assignments.read(name);
    } else if (token.is("EXIT") || token.is("CONTINUE") || token.is("RETURN")) {
      statement = leave(parser.take());
    } else if (open.size() >= DEEPEST) {
      statement = tooDeep();
    } else {
      statement = block(parser.take());
    }
    end();
    return statement;
  }

  private static boolean startsStatement(Token token) {
    return token.kind() == Token.Kind.NAME
        || token.kind() == Token.Kind.BROKEN_VALUE
        || token.is("IF")
        || token.is("CASE")
        || token.is("FOR")
        || token.is("EXIT")
        || token.is("CONTINUE")
        || token.is("RETURN");
  }

  private Statement block(Token start) {
    open.push(start);
    Statement statement =
        switch (start.text()) {
          case "IF" -> branches(start);
          case "CASE" -> new CaseReader(this, parser, typing, problems).read(start);
          default -> loop(start);
        };
    open.pop();
    return statement;
  }

  private Statement loop(Token start) {
    return new ForReader(this, parser, typing, problems).read(start);
  }

  /** The statements of a loop, none of which may assign its variable. */
  Statement body(Symbol control, Position place) {
    boolean outermost = control != null && controls.putIfAbsent(control, place) == null;
    Statement body = list();
    if (outermost) {
      controls.remove(control);
    }
    return body;
  }

  private Statement leave(Token word) {
    if (word.is("RETURN")) {
      return isBody ? new Statement.Leave(Statement.RETURN) : refuseReturn(word);
    }
    if (isOpen("FOR")) {
      return new Statement.Leave(word.is("EXIT") ? Statement.EXIT : Statement.CONTINUE);
    }
    problems.add(
        Diagnostic.error(
            Code.NOT_ALLOWED_HERE, parser.place(word), "`" + word.text() + "` outside a loop"));
    return null;
  }

  private Statement refuseReturn(Token word) {
    problems.add(
        Diagnostic.error(
                Code.NOT_ALLOWED_HERE,
                parser.place(word),
                "`RETURN` outside a function or function block")
            .help("put what follows into an `IF`"));
    return null;
  }

  private Statement call(Token name) {
    Instance instance = null;
    if (name.kind() == Token.Kind.NAME) {
      instance = names.instance(name.text());
      if (instance == null) {
        names.noInstance(name.text(), parser.place(name));
      }
    }
    CallReader reader = new CallReader(this, parser, typing, problems);
    Statement call = reader.read(instance);
    if (instance != null) {
      blockCalls.add(new Program.BlockCall(instance, reader.given(), parser.place(name)));
    }
    return call;
  }

  private void noStatement(Token token) {
    boolean unbounded = token.is("WHILE") || token.is("REPEAT");
    parser.fail(
        Diagnostic.error(Code.SYNTAX, parser.place(token), noStatementBecause(token))
            .expected("an assignment `name := value;`, `IF`, `CASE`, `FOR` or `EXIT`")
            .help(unbounded ? "write `FOR` with the most passes there can be, and `EXIT`" : ""));
    skipLoop(token);
  }

  private static String noStatementBecause(Token token) {
    if (token.kind() != Token.Kind.KEYWORD) {
      return "a statement starts with " + Parser.found(token);
    }
    return switch (token.text()) {
      case "ELSIF", "ELSE", "END_IF" -> "`" + token.text() + "` without an `IF`";
      case "END_CASE", "END_FOR" ->
          "`" + token.text() + "` without a `" + token.text().substring("END_".length()) + "`";
      case "WHILE", "REPEAT" ->
          "`" + token.text() + "` is refused: nothing bounds how often it runs in a scan";
      default -> "`" + token.text() + "` is no statement here";
    };
  }

  /** Skips a loop as a whole, since what is inside makes no sense without it. */
  private void skipLoop(Token token) {
    String end = "END_" + token.text();
    if (List.of("END_WHILE", "END_REPEAT").contains(end)) {
      while (parser.peek().kind() != Token.Kind.END && !parser.peek().is(end)) {
        parser.take();
      }
    }
  }

  private Statement tooDeep() {
    Token token = parser.take();
    parser.fail(
        Diagnostic.error(
                Code.TOO_MANY, parser.place(token), "`" + token.text() + "` is nested too deep")
            .expected("at most " + DEEPEST + " inside each other"));
    while (parser.peek().kind() != Token.Kind.END) {
      parser.take();
    }
    return null;
  }

  /** The symbol to assign, or null after a diagnostic. */
  Symbol target(Token name) {
    if (name.kind() == Token.Kind.BROKEN_VALUE) {
      return null;
    }
    NamedConstant constant = names.constant(name.text());
    if (constant != null) {
      problems.add(
          Diagnostic.error(
                  Code.CANNOT_BE_ASSIGNED,
                  parser.place(name),
                  "`" + name.text() + "` cannot be assigned: it is a constant")
              .note(constant.position(), "`" + constant.name() + "` is declared here"));
      return null;
    }
    Symbol symbol = names.symbol(name.text(), parser.place(name), null, "a name to assign");
    if (symbol != null && controls.containsKey(symbol)) {
      problems.add(
          Diagnostic.error(
                  Code.CANNOT_BE_ASSIGNED,
                  parser.place(name),
                  "`" + name.text() + "` is assigned inside its own loop")
              .expected("the variable of a `FOR` left alone between `DO` and `END_FOR`")
              .note(controls.get(symbol), "the loop over `" + symbol.name() + "`")
              .help("leave the loop early with `EXIT`"));
      return symbol;
    }
    if (symbol != null) {
      claim(symbol, name);
    }
    return symbol;
  }

  /** Every element of an array is assigned. */
  void claim(ArrayOf array, Token name) {
    if (claim(array.first(), name)) {
      for (long i = array.bounds().least() + 1L; i <= array.bounds().greatest(); i++) {
        claim(names.element(array, i), name);
      }
    }
  }

  /** A symbol is assigned; false after a diagnostic when it may not be. */
  boolean claim(Symbol symbol, Token name) {
    String refusal = assignable.refusal(symbol);
    if (refusal != null) {
      Diagnostic refused =
          Diagnostic.error(
              Code.CANNOT_BE_ASSIGNED,
              parser.place(name),
              "`" + name.text() + "` cannot be assigned: " + refusal);
      problems.add(
          symbol.declared() == null
              ? refused
              : refused.note(symbol.declared(), "`" + symbol.name() + "` is declared here"));
    } else if (written.add(symbol.name())) {
      writes.add(new Program.Write(symbol, parser.place(name)));
    }
    return refusal == null;
  }

  /** From after IF or ELSIF to END_IF. */
  private Statement branches(Token start) {
    Whole condition = condition();
    Statement then = list();
    Statement otherwise;
    if (keyword().equals("ELSIF")) {
      otherwise = elsif();
    } else {
      otherwise = otherwise();
      close(start, "END_IF");
    }
    return condition == null || otherwise == null
        ? null
        : new Statement.If(condition, then, otherwise);
  }

  /** The ELSE of an IF or a CASE; nothing to do when there is none. */
  Statement otherwise() {
    Statement first = parser.takeIf("ELSE") ? list() : new Statement.Sequence(List.of());
    while (parser.peek().is("ELSE")) {
      problems.add(Diagnostic.error(Code.SYNTAX, parser.place(parser.take()), "a second `ELSE`"));
      list();
    }
    return first;
  }

  /** An IF in the ELSE of another, with the END_IF of both. */
  private Statement elsif() {
    if (open.size() >= DEEPEST) {
      return tooDeep();
    }
    open.push(open.peek());
    Statement statement = branches(parser.take());
    open.pop();
    return statement;
  }

  private Whole condition() {
    Syntax syntax = parser.expression();
    Expression condition = typing.wanted(syntax, Type.BOOL);
    return !endHead("THEN") || condition == null
        ? null
        : new Whole(condition, typing.source(syntax));
  }

  /** Takes the word after the head of a statement; false after any problem in how it is written. */
  boolean endHead(String word) {
    if (!parser.hasFailed() && !parser.peek().is(word)) {
      Token token = parser.peek();
      parser.fail(
          Diagnostic.error(
              Code.SYNTAX,
              parser.place(token),
              "`" + word + "` is missing before " + Parser.found(token)));
    }
    boolean failed = parser.hasFailed();
    if (failed) {
      skipTo(word);
    }
    parser.takeIf(word);
    parser.recover();
    return !failed;
  }

  /** Takes the word that closes what {@code start} began. */
  void close(Token start, String word) {
    parser.recover();
    if (!parser.takeIf(word)) {
      Token token = parser.peek();
      parser.fail(
          Diagnostic.error(
                  Code.SYNTAX,
                  parser.place(token),
                  "`" + word + "` is missing before " + Parser.found(token))
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
              Code.SYNTAX,
              text.at(parser.last().start(), parser.last().end()),
              "`;` is missing after `" + parser.last().text() + "`"));
      if (!startsStatement(token) && !labelAhead()) {
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

  /** Goes to the word, but never past a {@code ;} or what ends something open. */
  private void skipTo(String word) {
    while (parser.peek().kind() != Token.Kind.END
        && !parser.peek().is(word)
        && !parser.peek().is(";")
        && !endsOpen()) {
      parser.take();
    }
  }
}
