package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Cuts text into tokens. Whether a literal makes sense is for {@link LiteralReader} to say. */
final class Lexer {
  private static final Set<String> KEYWORDS =
      new TreeSet<>(
          List.of(
              "AND",
              "OR",
              "XOR",
              "NOT",
              "MOD",
              "TRUE",
              "FALSE",
              "IF",
              "THEN",
              "ELSIF",
              "ELSE",
              "END_IF",
              "CASE",
              "END_CASE",
              "FOR",
              "END_FOR",
              "WHILE",
              "END_WHILE",
              "REPEAT",
              "END_REPEAT",
              "UNTIL",
              "DO",
              "TO",
              "BY",
              "OF",
              "EXIT",
              "CONTINUE",
              "RETURN"));

  private static final int LONGEST = 200;
  private static final int LONGEST_TEXT = 3 * StringCells.LONGEST + 2; // each written $4D
  private static final Pattern LITERAL =
      Pattern.compile(
          // a typed real and an untyped one may have a sign in the exponent
          "(?i)(?:L?REAL#[+-]?)?[0-9][0-9_]*+(?:\\.[0-9_]*+)?E[+-](?:[0-9A-Z_]|\\.(?!\\.))*+"
              // a prefix, perhaps a sign, and all that hangs together; two points part a range
              + "|[A-Z0-9_]++#[+-]?(?:[0-9A-Z_#]|\\.(?!\\.))*+"
              + "|\\.?[0-9](?:[0-9A-Z_]|\\.(?!\\.))*+"
              // characters, $ before one that would mean something else
              + "|'(?:[^'$\n]|\\$[^\n])*+'");
  private static final Pattern SEGMENT = Pattern.compile("(?i)[A-Z_][A-Z0-9_]*+");
  private static final Pattern NEXT_SEGMENT = Pattern.compile("(?i)\\.[A-Z_][A-Z0-9_]*+");
  private static final Pattern NAME_AS_IT_SHOULD_BE =
      Pattern.compile("(?i)_?[A-Z0-9]++(?:_[A-Z0-9]++)*+(?:\\._?[A-Z0-9]++(?:_[A-Z0-9]++)*+)*+");
  private static final Pattern FOREIGN = Pattern.compile("==|!=|&&|\\|\\||!");
  private static final Map<String, String> FOREIGN_HELP =
      Map.of(
          "==",
          "write `=`",
          "!=",
          "write `<>`",
          "&&",
          "write `AND`",
          "||",
          "write `OR`",
          "!",
          "write `NOT`");
  private static final Pattern SYMBOL =
      Pattern.compile("\\*\\*|\\.\\.|:=|<=|=>|>=|<>|[-+*/<>=&(),;:\\[\\]]");

  private final SourceText source;
  private final Diagnostics problems;
  private final List<Token> tokens = new ArrayList<>();
  private final Matcher matcher;
  private int at;

  private Lexer(SourceText source, Diagnostics problems) {
    this.source = source;
    this.problems = problems;
    this.matcher = SYMBOL.matcher(source.value());
  }

  /** The tokens, the last of them END. */
  static List<Token> cut(SourceText source, Diagnostics problems) {
    return new Lexer(source, problems).all();
  }

  private List<Token> all() {
    skipSpace();
    int lastEnd = at;
    while (at < source.value().length()) {
      one();
      lastEnd = at;
      skipSpace();
    }
    tokens.add(new Token(Token.Kind.END, "", lastEnd, lastEnd));
    return tokens;
  }

  private void skipSpace() {
    String text = source.value();
    while (at < text.length()) {
      if (Character.isWhitespace(text.charAt(at))) {
        at++;
      } else if (text.startsWith("//", at)) {
        int end = text.indexOf('\n', at);
        at = end < 0 ? text.length() : end;
      } else if (text.startsWith("(*", at)) {
        skipComment(text);
      } else {
        return;
      }
    }
  }

  private void skipComment(String text) {
    int end = text.indexOf("*)", at + 2);
    if (end < 0) {
      problems.add(
          Diagnostic.error(Code.SYNTAX, source.at(at, at + 2), "comment is not closed")
              .expected("`*)` after the comment"));
      tokens.add(new Token(Token.Kind.BAD, "(*", at, at + 2));
    }
    at = end < 0 ? text.length() : end + 2;
  }

  private void one() {
    int start = at;
    if (matches(LITERAL)) {
      literal(start);
    } else if (matches(SEGMENT)) {
      while (matches(NEXT_SEGMENT)) {
        // a dotted name is one token
      }
      name(start);
    } else if (matches(FOREIGN)) {
      bad(start, FOREIGN_HELP.get(text(start)));
    } else if (matches(SYMBOL)) {
      add(Token.Kind.SYMBOL, start, text(start));
    } else {
      at += Character.charCount(source.value().codePointAt(at));
      bad(start, source.value().charAt(start) == '\'' ? "a text ends with `'` on its line" : "");
    }
  }

  private String text(int start) {
    return source.value().substring(start, at);
  }

  private boolean matches(Pattern pattern) {
    matcher.usePattern(pattern).region(at, source.value().length());
    if (!matcher.lookingAt()) {
      return false;
    }
    at = matcher.end();
    return true;
  }

  private void literal(int start) {
    int longest = source.value().charAt(start) == '\'' ? LONGEST_TEXT : LONGEST;
    if (at - start <= longest) {
      add(Token.Kind.LITERAL, start, text(start));
    } else {
      broken(start, "a literal of " + (at - start) + " characters", "at most " + longest);
    }
  }

  private void name(int start) {
    String text = text(start);
    String upper = text.toUpperCase(Locale.ROOT);
    if (KEYWORDS.contains(upper)) {
      add(Token.Kind.KEYWORD, start, upper);
    } else if (text.length() > LONGEST) {
      broken(start, "a name of " + text.length() + " characters", "at most " + LONGEST);
    } else if (NAME_AS_IT_SHOULD_BE.matcher(text).matches()) {
      add(Token.Kind.NAME, start, text);
    } else {
      broken(
          start,
          "`" + text + "` is not a name",
          "letters, digits and single underscores, no underscore at the end");
    }
  }

  private void broken(int start, String message, String expected) {
    problems.add(Diagnostic.error(Code.SYNTAX, source.at(start, at), message).expected(expected));
    add(Token.Kind.BROKEN_VALUE, start, text(start));
  }

  private void bad(int start, String help) {
    String text = text(start);
    problems.add(
        Diagnostic.error(Code.SYNTAX, source.at(start, at), "`" + text + "` has no meaning here")
            .help(help));
    add(Token.Kind.BAD, start, text);
  }

  private void add(Token.Kind kind, int start, String text) {
    tokens.add(new Token(kind, text, start, at));
  }
}
