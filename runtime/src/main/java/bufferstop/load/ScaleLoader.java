package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.NearNames;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.st.ExpressionReader;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;

/** Reads how a quantity becomes another number: {@code as}, {@code scale}, {@code range}. */
final class ScaleLoader {
  private static final List<Type> TYPES =
      List.of(Type.INT, Type.UINT, Type.DINT, Type.UDINT, Type.LINT, Type.REAL);
  private static final List<String> KEYS = List.of("as", "scale", "range", "sentinel");
  static final List<String> NAMES = TYPES.stream().map(Type::name).toList();

  private static final MathContext DIGITS = new MathContext(12); // a step of 0.1 is no exact one

  private final Diagnostics problems;

  ScaleLoader(Diagnostics problems) {
    this.problems = problems;
  }

  /** Whether an entry says anything of it. */
  static boolean isGiven(TableReader reader) {
    return KEYS.stream().anyMatch(reader::has);
  }

  /** Null without any of its keys, or after a diagnostic. */
  Scale read(TableReader reader) {
    SourceText as = reader.text("as");
    Double factor = number(reader, "scale");
    Tree range = reader.tree("range");
    reader.tree("sentinel");
    if (as == null) {
      KEYS.stream().filter(reader::has).findFirst().ifPresent(key -> withoutType(reader, key));
      return null;
    }
    Type type = type(as);
    if (type == null || !checkFactor(reader, factor)) {
      return null;
    }
    double step = factor == null ? 1 : factor;
    if (type == Type.REAL) {
      return real(reader, step, range);
    }
    Long sentinel = reader.literal("sentinel", type);
    // the sentinel is no value: at an end of the type it is left out
    double least = (type.least() + (isAt(sentinel, type.least()) ? 1 : 0)) * step;
    double greatest = (type.greatest() - (isAt(sentinel, type.greatest()) ? 1 : 0)) * step;
    Scale whole = new Scale(type, step, least, greatest, sentinel);
    Scale scale = range == null ? whole : bounded(whole, range);
    return scale == null || !checkSentinel(reader, scale) ? null : scale;
  }

  /** A REAL needs no sentinel: it shows every value as it is. */
  private Scale real(TableReader reader, double step, Tree range) {
    if (reader.has("sentinel")) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  reader.entry("sentinel").key().position(),
                  "`sentinel` with `as: REAL`")
              .expected("a whole number's type in `as`, or no sentinel"));
      return null;
    }
    double most = Float.MAX_VALUE * Math.min(1, step);
    Scale whole = new Scale(Type.REAL, step, -most, most, null);
    return range == null ? whole : bounded(whole, range);
  }

  private static boolean isAt(Long sentinel, long end) {
    return sentinel != null && sentinel == end;
  }

  private void withoutType(TableReader reader, String key) {
    problems.add(
        Diagnostic.error(
                Code.KEY_DOES_NOT_FIT,
                reader.entry(key).key().position(),
                "`" + key + "` without `as`")
            .expected("`as` with the type of the number in the registers")
            .help("add `as: INT` or another of " + String.join(", ", NAMES)));
  }

  private Type type(SourceText text) {
    Type type = Type.named(text.value());
    if (type == null || !TYPES.contains(type)) {
      problems.add(
          Diagnostic.error(Code.BAD_LITERAL, text.whole(), "`as` cannot be `" + text.value() + "`")
              .expected(String.join(", ", NAMES))
              .help(NearNames.question(text.value(), NAMES)));
      return null;
    }
    return type;
  }

  private boolean checkFactor(TableReader reader, Double factor) {
    if (reader.has("scale") && factor == null) {
      return false;
    }
    if (factor != null && !(factor > 0 && Double.isFinite(factor))) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE, reader.tree("scale").position(), "`scale` is not above 0")
              .expected("what one step of the number is worth, for instance 0.1"));
      return false;
    }
    return true;
  }

  private Scale bounded(Scale whole, Tree range) {
    if (!(range instanceof Tree.Items items)
        || items.items().size() != 2
        || !(items.items().get(0) instanceof Tree.Scalar low)
        || !(items.items().get(1) instanceof Tree.Scalar high)) {
      problems.add(
          Diagnostic.error(Code.BAD_RANGE, range.position(), "`range` does not give two bounds")
              .expected("[least, greatest]"));
      return null;
    }
    Double least = number(low.text());
    Double greatest = number(high.text());
    if (least == null || greatest == null) {
      return null;
    }
    if (least > greatest
        || Math.rint(least / whole.factor()) < Math.rint(whole.least() / whole.factor())
        || Math.rint(greatest / whole.factor()) > Math.rint(whole.greatest() / whole.factor())) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_RANGE,
                  range.position(),
                  least > greatest
                      ? "the least value is above the greatest"
                      : "the number of " + whole.as() + " does not reach so far")
              .expected(
                  "[least, greatest] within "
                      + plain(whole.least())
                      + " to "
                      + plain(whole.greatest())));
      return null;
    }
    return new Scale(whole.as(), whole.factor(), least, greatest, whole.sentinel());
  }

  /** A sentinel must not be the number of a value. */
  private boolean checkSentinel(TableReader reader, Scale scale) {
    if (scale.sentinel() == null) {
      return !reader.has("sentinel");
    }
    double meaning = scale.sentinel() * scale.factor();
    if (scale.sentinel() >= Math.rint(scale.least() / scale.factor())
        && scale.sentinel() <= Math.rint(scale.greatest() / scale.factor())) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  reader.tree("sentinel").position(),
                  "the sentinel is the number of " + plain(meaning) + ", a value in range")
              .expected("a number outside `range`, which leaves it out"));
      return false;
    }
    return true;
  }

  private static String plain(double value) {
    return new BigDecimal(value, DIGITS).stripTrailingZeros().toPlainString();
  }

  private Double number(TableReader reader, String key) {
    SourceText text = reader.text(key);
    return text == null ? null : number(text);
  }

  /** A number as the language writes it, with or without a point; null after a diagnostic. */
  private Double number(SourceText text) {
    Long bits = ExpressionReader.literal(text, Type.LREAL, problems);
    return bits == null ? null : Double.longBitsToDouble(bits);
  }
}
