package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Reads one CASE. Labels are constant expressions of the selector's type (IEC 61131-3:2013 [from
 * memory, not re-read]); the second edition allows literals alone.
 */
final class CaseReader {
  private final StatementReader statements;
  private final Parser parser;
  private final Typing typing;
  private final Diagnostics problems;
  private final List<Statement> branches = new ArrayList<>();
  private Expression selector;
  private TreeMap<Long, Case.Label> labels = new TreeMap<>();

  CaseReader(StatementReader statements, Parser parser, Typing typing, Diagnostics problems) {
    this.statements = statements;
    this.parser = parser;
    this.typing = typing;
    this.problems = problems;
  }

  /** From after CASE to END_CASE; null when it cannot be run. */
  Statement read(Token start) {
    boolean written = head();
    if (written && !statements.labelAhead() && !parser.peek().is("ELSE")) {
      Token token = parser.peek();
      problems.add(
          Diagnostic.error(
                  Code.SYNTAX,
                  parser.place(token),
                  "a label is missing before " + Parser.found(token))
              .expected("a constant and `:`, as in `1:` or `2, 4..6:`"));
    }
    statements.list();
    readBranches();
    Statement otherwise = statements.otherwise();
    if (statements.labelAhead()) {
      problems.add(
          Diagnostic.error(Code.SYNTAX, parser.place(parser.peek()), "a label after `ELSE`")
              .expected("`ELSE` after all labels"));
      readBranches();
    }
    statements.close(start, "END_CASE");
    return selector == null ? null : new Case(selector, inOrder(), branches, otherwise);
  }

  /** The selector and OF; false when they are not written as they should be. */
  private boolean head() {
    Syntax syntax = parser.expression();
    Expression typed = typing.type(syntax, null);
    if (typed != null && !typed.type().isInteger() && typed.enumeration() == null) {
      typing.wrong(
          Code.WRONG_TYPE,
          syntax,
          Wording.quote(typing.quoted(syntax)) + " is " + typed.typeName(),
          "an integer or an enumeration",
          typed.type() == Type.BOOL ? "choose with `IF`" : "");
      typed = null;
    }
    boolean written = statements.endHead("OF");
    selector = written ? typed : null;
    if (selector != null) {
      labels = new TreeMap<>(selector.type()::compare);
    }
    return written;
  }

  private void readBranches() {
    while (statements.labelAhead()) {
      do {
        label();
      } while (!parser.hasFailed() && parser.takeIf(","));
      statements.endHead(":");
      branches.add(statements.list());
    }
  }

  private void label() {
    Syntax first = parser.expression();
    Long least = constant(first);
    if (parser.hasFailed() || !parser.takeIf("..")) {
      add(first, least, least);
      return;
    }
    Syntax last = parser.expression();
    Long greatest = constant(last);
    if (!parser.hasFailed()) {
      add(new Syntax.Remains(List.of(first, last), first.start(), last.end()), least, greatest);
    }
  }

  /** The value of a label, or null after a diagnostic or when it cannot be known. */
  private Long constant(Syntax syntax) {
    Expression value =
        selector == null
            ? typing.wanted(syntax, null)
            : typing.wanted(syntax, selector.type(), selector.enumeration());
    if (value == null || parser.hasFailed()) {
      return null;
    }
    Long constant = value.constant();
    if (constant == null) {
      String quote = Wording.quote(typing.quoted(syntax));
      typing.wrong(
          Code.WRONG_TYPE,
          syntax,
          value.readsAnything() ? quote + " is no constant" : quote + " has no value",
          selector == null ? "a constant" : "a constant of type " + selector.typeName(),
          "");
    }
    return constant;
  }

  private void add(Syntax syntax, Long least, Long greatest) {
    if (selector == null || least == null || greatest == null) {
      return;
    }
    if (selector.type().compare(least, greatest) > 0) {
      typing.wrong(
          Code.BAD_RANGE,
          syntax,
          "the range " + Wording.quote(typing.quoted(syntax)) + " is empty",
          "the smaller value first",
          "");
      return;
    }
    Map.Entry<Long, Case.Label> below = labels.floorEntry(greatest);
    if (below != null && selector.type().compare(below.getValue().greatest(), least) >= 0) {
      Syntax taken = below.getValue().syntax();
      problems.add(
          Diagnostic.error(
                  Code.GIVEN_TWICE,
                  typing.place(syntax),
                  "label " + Wording.quote(typing.quoted(syntax)) + " holds a value twice")
              .expected("each value in one label")
              .note(typing.place(taken), Wording.quote(typing.quoted(taken)) + " holds it first"));
      return;
    }
    if (labels.size() == Case.MOST_LABELS) {
      typing.wrong(
          Code.TOO_MANY,
          syntax,
          "a `CASE` with more than " + Case.MOST_LABELS + " labels",
          "",
          "choose in two steps: another `CASE` in the `ELSE`");
      return;
    }
    labels.put(least, new Case.Label(least, greatest, branches.size(), syntax));
  }

  private List<Case.Label> inOrder() {
    return List.copyOf(labels.values());
  }
}
