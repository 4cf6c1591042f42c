package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.Type;
import java.math.BigInteger;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads one literal token. Source: IEC 61131-3:2003, 2.2.1, Tables 4 and 7, B.1.2 [the marks of the
 * single rules stand at their tests].
 */
final class LiteralReader {
  private static final Pattern DIGITS = Pattern.compile("[0-9]+(?:_[0-9]+)*");
  private static final Pattern BASED = Pattern.compile("(2|8|16)#([0-9A-F]+(?:_[0-9A-F]+)*)");
  private static final Pattern REAL =
      Pattern.compile("[0-9]+(?:_[0-9]+)*\\.[0-9]+(?:_[0-9]+)*(?:E[+-]?[0-9]+)?");
  private static final Pattern WITHOUT_POINT = Pattern.compile("([0-9]+)(E[+-]?[0-9]+)");
  private static final Pattern HALF_A_POINT = Pattern.compile("([0-9]*)\\.([0-9]*)(E.*)?");
  private static final Pattern PREFIXED = Pattern.compile("([A-Z_][A-Z0-9_]*)#([+-]?)(.*)");

  private final String text;
  private final Position position;
  private final Diagnostics problems;

  private LiteralReader(String text, Position position, Diagnostics problems) {
    this.text = text;
    this.position = position;
    this.problems = problems;
  }

  /** The literal of that text, or null after a diagnostic. */
  static Literal read(String text, Position position, Diagnostics problems) {
    LiteralReader reader = new LiteralReader(text, position, problems);
    return text.startsWith("'") ? reader.characters() : reader.read(text.toUpperCase(Locale.ROOT));
  }

  private Literal read(String upper) {
    Matcher prefixed = PREFIXED.matcher(upper);
    if (!prefixed.matches()) {
      return untyped(upper, "");
    }
    String prefix = prefixed.group(1);
    Type type = prefix.equals("T") ? Type.TIME : Type.named(prefix);
    if (type == null) {
      int hash = prefix.length();
      return new Literal.Member(text.substring(0, hash), text.substring(hash + 1));
    }
    return switch (type) {
      case TIME -> time(prefixed.group(2), prefixed.group(3));
      case BOOL -> bool(prefixed.group(2) + prefixed.group(3));
      default -> typed(type, prefixed.group(2), prefixed.group(3));
    };
  }

  private Literal characters() {
    StringLiteral.Characters read = StringLiteral.characters(text.substring(1, text.length() - 1));
    if (read.complaint() != null) {
      return wrong(read.complaint(), "`$$`, `$'`, `$L`, `$N`, `$P`, `$R`, `$T` or `$4D`", "");
    }
    return new Literal.Text(read.text());
  }

  private Literal untyped(String body, String sign) {
    if (DIGITS.matcher(body).matches()) {
      return new Literal.Whole(new BigInteger(sign + plain(body)), false);
    }
    if (REAL.matcher(body).matches()) {
      return real(new Literal.Real(sign + plain(body)));
    }
    return body.contains("#") ? based(body, sign) : malformed(body);
  }

  private Literal real(Literal.Real real) {
    return Double.isInfinite(real.in(Type.LREAL))
        ? wrong("`" + text + "` is larger than any LREAL", "", "")
        : real;
  }

  private Literal based(String body, String sign) {
    if (!sign.isEmpty() || body.contains("#-") || body.contains("#+")) {
      return wrong(
          "a literal with a base takes no sign", "", "put the sign before brackets: `-(16#FF)`");
    }
    Matcher based = BASED.matcher(body);
    if (!based.matches()) {
      return wrong(
          "`" + text + "` is not a literal",
          "base 2, 8 or 16, then digits with single underscores between: `16#FF`",
          "");
    }
    int base = Integer.parseInt(based.group(1));
    String digits = plain(based.group(2));
    for (int i = 0; i < digits.length(); i++) {
      if (Character.digit(digits.charAt(i), base) < 0) {
        return wrong(
            "`" + digits.charAt(i) + "` is no digit of base " + base + " in `" + text + "`",
            "",
            "");
      }
    }
    return new Literal.Whole(new BigInteger(digits, base), true);
  }

  private Literal malformed(String body) {
    Matcher withoutPoint = WITHOUT_POINT.matcher(body);
    if (withoutPoint.matches()) {
      return halfReal(withoutPoint.group(1) + ".0" + withoutPoint.group(2));
    }
    Matcher half = HALF_A_POINT.matcher(body);
    if (half.matches()) {
      String exponent = half.group(3) == null ? "" : half.group(3);
      return halfReal(orZero(half.group(1)) + "." + orZero(half.group(2)) + exponent);
    }
    return wrong(
        "`" + text + "` is not a literal", "a number with single underscores between digits", "");
  }

  private Literal halfReal(String better) {
    return wrong(
        "`" + text + "` is not a literal",
        "a real with digits on both sides of the point",
        REAL.matcher(better).matches() ? "write `" + better + "`" : "");
  }

  private static String orZero(String digits) {
    return digits.isEmpty() ? "0" : digits;
  }

  private Literal time(String sign, String body) {
    TimeLiteral time = TimeLiteral.read(body);
    if (time.complaint() != null) {
      return wrong(
          "`" + text + "` is not a literal: " + time.complaint(),
          "a TIME literal such as `T#1m30s` or `T#1.5s`",
          "");
    }
    long micros = time.micros().longValueExact();
    return new Literal.Typed(Type.TIME, sign.equals("-") ? -micros : micros);
  }

  private Literal bool(String body) {
    return switch (body) {
      case "0", "FALSE" -> new Literal.Typed(Type.BOOL, 0);
      case "1", "TRUE" -> new Literal.Typed(Type.BOOL, 1);
      default -> wrong("`" + text + "` is not a literal", "`TRUE` or `FALSE`", "");
    };
  }

  private Literal typed(Type type, String sign, String body) {
    Literal untyped = untyped(body, sign.equals("-") ? "-" : "");
    if (untyped == null) {
      return null;
    }
    if (!sign.isEmpty() && untyped.negated() == null) {
      return based(body, sign);
    }
    Literal.Typed typed = in(untyped, type);
    if (typed == null) {
      return wrong(outside("`" + text + "`", type), Wording.range(type), "");
    }
    return typed;
  }

  static String outside(String what, Type type) {
    return what + (type.isReal() ? " cannot be held by " : " is outside ") + type;
  }

  /** A literal without a type as one of that type, or null when that cannot hold it. */
  static Literal.Typed in(Literal untyped, Type type) {
    if (untyped instanceof Literal.Whole whole && whole.fits(type)) {
      return type.isReal()
          ? typedReal(type, whole.value().doubleValue())
          : new Literal.Typed(type, whole.value().longValue());
    }
    if (untyped instanceof Literal.Real real && type.isReal()) {
      double value = real.in(type);
      return Double.isInfinite(value) ? null : typedReal(type, value);
    }
    return null;
  }

  private static Literal.Typed typedReal(Type type, double value) {
    return new Literal.Typed(type, Double.doubleToLongBits(value));
  }

  private static String plain(String digits) {
    return digits.replace("_", "");
  }

  private Literal wrong(String message, String expected, String help) {
    problems.add(
        Diagnostic.error(Code.BAD_LITERAL, position, message).expected(expected).help(help));
    return null;
  }
}
