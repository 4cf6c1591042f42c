package bufferstop.st;

import java.math.BigDecimal;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The part of a TIME literal after its sign: {@code 1h2m3s4ms}. Units fall; only the first may run
 * over, only the last may have a fraction (IEC 61131-3:2003, 2.2.3.1 [from memory, not re-read],
 * B.1.2.3.1 and Table 7 [re-read]); units may be left out (2013 edition [from memory, not
 * re-read]).
 */
final class TimeLiteral {
  private static final Pattern PART =
      Pattern.compile("(?i)([0-9]+(?:_[0-9]+)*)(\\.[0-9]+(?:_[0-9]+)*)?(ms|d|h|m|s)_?");
  private static final String[] UNITS = {"d", "h", "m", "s", "ms"};
  private static final long[] MICROS = {
    86_400_000_000L, 3_600_000_000L, 60_000_000L, 1000_000, 1000
  };

  /** Below which a unit that is not the first must stay. */
  private static final int[] LIMIT = {0, 24, 60, 60, 1000};

  private final BigDecimal micros;
  private final String complaint;

  private TimeLiteral(BigDecimal micros, String complaint) {
    this.micros = micros;
    this.complaint = complaint;
  }

  /** Its length in microseconds, when there is no complaint. */
  BigDecimal micros() {
    return micros;
  }

  /** What is wrong with it, or null. */
  String complaint() {
    return complaint;
  }

  static TimeLiteral read(String body) {
    Matcher part = PART.matcher(body);
    BigDecimal sum = BigDecimal.ZERO;
    int at = 0;
    int last = -1;
    while (at < body.length()) {
      if (!part.region(at, body.length()).lookingAt()) {
        return wrong("each number needs a unit: d, h, m, s or ms");
      }
      int unit = unit(part.group(3));
      BigDecimal number = number(part);
      at = part.end();
      String complaint = inOrder(unit, last, number, part.group(2) != null && at < body.length());
      if (complaint != null) {
        return wrong(complaint);
      }
      sum = sum.add(number.multiply(BigDecimal.valueOf(MICROS[unit])));
      last = unit;
    }
    return last < 0 || body.endsWith("_") ? wrong("it must end in a unit") : checked(sum);
  }

  private static String inOrder(int unit, int last, BigDecimal number, boolean earlyFraction) {
    if (unit <= last) {
      return "units must fall from d to ms";
    }
    if (earlyFraction) {
      return "only its last unit may have a fraction";
    }
    if (last >= 0 && number.compareTo(BigDecimal.valueOf(LIMIT[unit])) >= 0) {
      return "only its first unit may run over: " + UNITS[unit] + " must be below " + LIMIT[unit];
    }
    return null;
  }

  private static TimeLiteral checked(BigDecimal sum) {
    if (sum.stripTrailingZeros().scale() > 0) {
      return wrong("TIME counts whole microseconds, this is finer");
    }
    return sum.compareTo(BigDecimal.valueOf(Long.MAX_VALUE)) > 0
        ? wrong("it is longer than TIME can hold")
        : new TimeLiteral(sum, null);
  }

  private static TimeLiteral wrong(String complaint) {
    return new TimeLiteral(BigDecimal.ZERO, complaint);
  }

  private static BigDecimal number(Matcher part) {
    String fraction = part.group(2) == null ? "" : part.group(2);
    return new BigDecimal((part.group(1) + fraction).replace("_", ""));
  }

  private static int unit(String written) {
    for (int i = 0; i < UNITS.length; i++) {
      if (UNITS[i].equalsIgnoreCase(written)) {
        return i;
      }
    }
    throw new IllegalStateException("no unit " + written);
  }
}
