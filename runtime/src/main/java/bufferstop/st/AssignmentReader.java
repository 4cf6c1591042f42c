package bufferstop.st;

import bufferstop.model.ArrayOf;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Symbol;
import bufferstop.model.Type;

/** Reads what is assigned to a name, an element of an array, or a whole array. */
final class AssignmentReader {
  private final StatementReader statements;
  private final Parser parser;
  private final Typing typing;
  private final Names names;
  private final Diagnostics problems;

  AssignmentReader(
      StatementReader statements, Parser parser, Typing typing, Names names, Diagnostics problems) {
    this.statements = statements;
    this.parser = parser;
    this.typing = typing;
    this.names = names;
    this.problems = problems;
  }

  /** From after the name on; null after a diagnostic. */
  Statement read(Token name) {
    if (parser.peek().is("[")) {
      return element(name);
    }
    ArrayOf array = names.array(name.text());
    if (array != null) {
      return whole(name, array);
    }
    Symbol target = statements.target(name);
    if (!takeSign(name.text())) {
      return null;
    }
    Syntax syntax = parser.expression();
    Expression value =
        target == null
            ? typing.wanted(syntax, null)
            : typing.wanted(syntax, target.type(), target.enumeration());
    return assigned(target, value, syntax);
  }

  private Statement assigned(Symbol target, Expression value, Syntax syntax) {
    if (target == null || value == null || parser.hasFailed()) {
      return null;
    }
    if (target.type() != Type.STRING) {
      return new Statement.Assignment(target, value);
    }
    Expression text = typing.inMemory(value, syntax);
    return text == null ? null : new Stores.OfString(target, text);
  }

  private boolean takeSign(String shown) {
    if (parser.hasFailed()) {
      return false;
    }
    if (parser.takeIf(":=")) {
      return true;
    }
    Token token = parser.peek();
    parser.fail(
        Diagnostic.error(
                Code.SYNTAX, parser.place(token), "`:=` is missing before " + Parser.found(token))
            .help(token.is("=") ? "`=` compares; write `" + shown + " := ...`" : ""));
    return false;
  }

  private Statement element(Token name) {
    Syntax syntax = parser.afterName(name);
    Elements.Place place =
        syntax instanceof Syntax.Index index ? typing.elements().place(index) : null;
    if (place != null && place.known() != null) {
      statements.claim(place.known(), name);
    } else if (place != null) {
      statements.claim(place.array(), name);
    }
    if (!takeSign(typing.quoted(syntax))) {
      return null;
    }
    Symbol first = place == null ? null : place.array().first();
    Syntax right = parser.expression();
    Expression value =
        first == null
            ? typing.wanted(right, null)
            : typing.wanted(right, first.type(), first.enumeration());
    if (place == null || value == null || parser.hasFailed()) {
      return null;
    }
    if (place.known() != null) {
      return assigned(place.known(), value, right);
    }
    Expression lying = first.type() == Type.STRING ? typing.inMemory(value, right) : value;
    int at = problems.placeOf(typing.source(syntax));
    return lying == null ? null : new Stores.OfElement(place.array(), place.index(), lying, at);
  }

  private Statement whole(Token name, ArrayOf target) {
    statements.claim(target, name);
    if (!takeSign(name.text())) {
      return null;
    }
    Syntax right = parser.expression();
    Expression from = parser.hasFailed() ? null : typing.elements().whole(right, target.type());
    return from == null ? null : new Stores.OfCells(target.first(), target.type().cells(), from);
  }
}
