package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Tokens to syntax, expressions only. After an error it reports nothing more until {@link #recover}
 * and goes on from the next token that can follow an expression; what was understood before stays,
 * so that its names are still checked.
 */
final class Parser {
  private static final int DEEPEST = 250;

  /** Functions that are written operators (IEC 61131-3:2003, Table 24 [re-read]), and MOVE. */
  private static final Map<String, Operator> AS_OPERATOR =
      Map.of(
          "ADD", Operator.PLUS,
          "MUL", Operator.TIMES,
          "SUB", Operator.MINUS,
          "DIV", Operator.DIVIDED,
          "EXPT", Operator.POWER);

  private final SourceText source;
  private final Diagnostics problems;
  private final List<Token> tokens;
  private int at;
  private int depth;
  private boolean failed;

  Parser(SourceText source, Diagnostics problems) {
    this.source = source;
    this.problems = problems;
    this.tokens = Lexer.cut(source, problems);
  }

  Token peek() {
    return tokens.get(at);
  }

  /** The token after the next. */
  Token peekSecond() {
    return tokens.get(Math.min(at + 1, tokens.size() - 1));
  }

  /** The token just taken. */
  Token last() {
    return tokens.get(at - 1);
  }

  Token take() {
    Token token = tokens.get(at);
    if (token.kind() != Token.Kind.END) {
      at++;
    }
    return token;
  }

  boolean takeIf(String word) {
    boolean is = peek().is(word);
    if (is) {
      take();
    }
    return is;
  }

  boolean hasFailed() {
    return failed;
  }

  /** From here on problems are new ones again. */
  void recover() {
    failed = false;
    depth = 0;
  }

  /** An expression that takes all tokens that are left. */
  Syntax wholeExpression() {
    Syntax syntax = expression();
    if (!failed && peek().kind() != Token.Kind.END) {
      Token token = peek();
      fail(
          Diagnostic.error(Code.SYNTAX, place(token), "the expression ends before " + found(token))
              .expected(token.is(")") ? "no more `)` than `(`" : "an operator or the end")
              .help(helpAbout(token)));
    }
    return syntax;
  }

  private static String helpAbout(Token token) {
    if (token.is("=>")) {
      return "write `>=` to compare";
    }
    return token.is(":=") ? "write `=` to compare" : "";
  }

  Syntax expression() {
    return binary(Operator.LOOSEST);
  }

  private Syntax binary(int loosest) {
    int outside = depth;
    if (tooDeep()) {
      return broken();
    }
    Syntax left = unary();
    for (Operator next = operator(); next != null && next.level() <= loosest; next = operator()) {
      take();
      if (tooDeep()) {
        return broken();
      }
      Syntax right = binary(next.level() - 1);
      boolean refused = next == Operator.POWER && refusesSign(left, right);
      left =
          refused
              ? new Syntax.Remains(List.of(left, right), left.start(), right.end())
              : new Syntax.Binary(next, left, right, left.start(), right.end());
    }
    depth = outside;
    return left;
  }

  private Operator operator() {
    Token token = peek();
    boolean may = token.kind() == Token.Kind.SYMBOL || token.kind() == Token.Kind.KEYWORD;
    return may && !failed ? Operator.written(token.text()) : null;
  }

  private boolean refusesSign(Syntax left, Syntax right) {
    Syntax base = left instanceof Syntax.Binary chain ? chain.right() : left;
    boolean maySign = base instanceof Syntax.Value || base instanceof Syntax.Sign;
    if (failed || !maySign || source.value().charAt(base.start()) != '-') {
      return false;
    }
    String a = Wording.inLine(source.value().substring(base.start() + 1, base.end()));
    String b = Wording.inLine(source.value().substring(right.start(), right.end()));
    fail(
        Diagnostic.error(
                Code.SYNTAX,
                source.at(base.start(), right.end()),
                "`-" + a + " ** " + b + "` can be read in two ways")
            .expected("brackets")
            .help("write `(-" + a + ") ** " + b + "` or `-(" + a + " ** " + b + ")`"));
    return true;
  }

  private Syntax unary() {
    if (tooDeep()) {
      return broken();
    }
    Token token = peek();
    if (token.is("NOT")) {
      take();
      Syntax operand = unary();
      return new Syntax.Complement(operand, token.start(), operand.end());
    }
    if (token.is("-") || token.is("+")) {
      take();
      return sign(token, unary());
    }
    return primary();
  }

  private Syntax sign(Token sign, Syntax operand) {
    boolean minus = sign.is("-");
    boolean plain = operand instanceof Syntax.Value && operand.start() == last().start();
    if (plain
        && ((Syntax.Value) operand).literal() instanceof Literal.Whole whole
        && whole.based()) {
      problems.add(
          Diagnostic.error(
                  Code.SYNTAX,
                  source.at(sign.start(), operand.end()),
                  "a literal with a base takes no sign")
              .help("put it in brackets: `-(" + last().text() + ")`"));
      return new Syntax.Broken(sign.start(), operand.end());
    }
    Literal literal = plain ? ((Syntax.Value) operand).literal() : null;
    Literal signed = literal == null ? null : minus ? literal.negated() : literal;
    return signed == null
        ? new Syntax.Sign(minus, operand, sign.start(), operand.end())
        : new Syntax.Value(signed, sign.start(), operand.end());
  }

  private Syntax primary() {
    Token token = peek();
    switch (token.kind()) {
      case LITERAL:
        take();
        Literal literal =
            LiteralReader.read(token.text(), source.at(token.start(), token.end()), problems);
        return literal == null
            ? new Syntax.Broken(token.start(), token.end())
            : new Syntax.Value(literal, token.start(), token.end());
      case BROKEN_VALUE:
        take();
        return new Syntax.Broken(token.start(), token.end());
      case NAME:
        take();
        return afterName(token);
      default:
        return bracketsOrTruth(token);
    }
  }

  /** What a name just taken begins. */
  Syntax afterName(Token name) {
    if (peek().is("(")) {
      return call(name);
    }
    if (!peek().is("[")) {
      return new Syntax.Name(name.text(), name.start(), name.end());
    }
    Token open = take();
    Syntax index = expression();
    close(open, "]");
    return failed
        ? new Syntax.Remains(List.of(index), name.start(), last().end())
        : new Syntax.Index(name.text(), index, name.start(), name.end(), last().end());
  }

  private Syntax bracketsOrTruth(Token token) {
    if (token.is("TRUE") || token.is("FALSE")) {
      take();
      Literal literal = new Literal.Typed(Type.BOOL, token.is("TRUE") ? 1 : 0);
      return new Syntax.Value(literal, token.start(), token.end());
    }
    if (token.is("(")) {
      take();
      Syntax inner = expression();
      close(token);
      return new Syntax.Brackets(inner, token.start(), last().end());
    }
    return missingValue(token);
  }

  private Syntax missingValue(Token token) {
    fail(Diagnostic.error(Code.SYNTAX, place(token), "a value is missing before " + found(token)));
    return broken();
  }

  private Syntax call(Token name) {
    Token open = take();
    List<Syntax> inputs = new ArrayList<>();
    if (!peek().is(")")) {
      do {
        inputs.add(input(name));
      } while (!failed && takeIf(","));
    }
    close(open);
    if (failed) {
      return new Syntax.Remains(inputs, name.start(), last().end());
    }
    String upper = name.text().toUpperCase(Locale.ROOT);
    Operator operator = AS_OPERATOR.get(upper);
    boolean fits = inputs.size() == 2 || inputs.size() > 2 && isLong(operator);
    if (operator != null && fits && inputs.size() + depth <= DEEPEST) {
      return chain(operator, inputs, name.start(), last().end());
    }
    return upper.equals("MOVE") && inputs.size() == 1
        ? new Syntax.Brackets(inputs.get(0), name.start(), last().end())
        : new Syntax.Call(name.text(), inputs, name.start(), name.end(), last().end());
  }

  private Syntax input(Token function) {
    Token name = peek();
    if (name.kind() != Token.Kind.NAME || !peekSecond().is(":=")) {
      return expression();
    }
    if (Calls.isStandard(function.text())) {
      fail(
          Diagnostic.error(Code.SYNTAX, place(name), "an input is named `" + name.text() + "`")
              .expected("inputs in order, without their names"));
      return expression();
    }
    take();
    take();
    Syntax value = expression();
    return new Syntax.Named(name.text(), value, name.start(), name.end(), value.end());
  }

  private static boolean isLong(Operator operator) {
    return operator == Operator.PLUS || operator == Operator.TIMES;
  }

  private static Syntax chain(Operator operator, List<Syntax> inputs, int start, int end) {
    Syntax chain = inputs.get(0);
    for (Syntax next : inputs.subList(1, inputs.size())) {
      chain = new Syntax.Binary(operator, chain, next, start, end);
    }
    return new Syntax.Brackets(chain, start, end);
  }

  /** Takes the bracket that closes {@code open}. */
  void close(Token open) {
    close(open, ")");
  }

  private void close(Token open, String word) {
    if (!failed && !takeIf(word)) {
      Token token = peek();
      fail(
          Diagnostic.error(
                  Code.SYNTAX, place(token), "`" + word + "` is missing before " + found(token))
              .note(source.at(open.start(), open.end()), "for this `" + open.text() + "`"));
    }
  }

  private boolean tooDeep() {
    if (++depth > DEEPEST) {
      fail(
          Diagnostic.error(Code.TOO_MANY, place(peek()), "the expression is nested too deep")
              .expected("at most " + DEEPEST + " operators and brackets inside each other")
              .help("compute a part of it in an internal point"));
    }
    return failed;
  }

  private Syntax broken() {
    int end = at == 0 ? 0 : last().end();
    return new Syntax.Broken(end, end);
  }

  /** Reports a problem, unless it follows from one, and goes to where an expression may end. */
  void fail(Diagnostic problem) {
    if (!failed && peek().kind() != Token.Kind.BAD) {
      problems.add(problem);
    }
    failed = true;
  }

  Position place(Token token) {
    return source.at(token.start(), token.end());
  }

  /** A token as messages name it. */
  static String found(Token token) {
    return token.kind() == Token.Kind.END ? "the end" : "`" + token.text() + "`";
  }
}
