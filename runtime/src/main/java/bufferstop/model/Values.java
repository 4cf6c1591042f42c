package bufferstop.model;

import java.util.HexFormat;
import java.util.Locale;

/** Values as people read them. */
public final class Values {
  private Values() {}

  /**
   * A cell's value in the literal form of its type: {@code TRUE}, {@code T#1s500ms}, {@code 12}.
   */
  public static String print(Type type, long bits) {
    return switch (type) {
      case BOOL -> bits != 0 ? "TRUE" : "FALSE";
      case ULINT -> Long.toUnsignedString(bits);
      case REAL, LREAL -> number(Double.longBitsToDouble(bits));
      case TIME -> time(bits);
      case BYTE, WORD, DWORD, LWORD ->
          "16#" + HexFormat.of().withUpperCase().toHexDigits(bits, type.bits() / 4);
      default -> Long.toString(bits);
    };
  }

  /** The same, a value of an enumeration by its name. */
  public static String print(Type type, Enumeration enumeration, long bits) {
    return enumeration == null ? print(type, bits) : enumeration.print(bits);
  }

  /** The value of a symbol in an image, likewise; a STRING as a literal. */
  public static String print(Symbol symbol, long[] cells) {
    return symbol.type() == Type.STRING
        ? StringCells.literal(StringCells.unpack(cells, symbol.index()))
        : print(symbol.type(), symbol.enumeration(), cells[symbol.index()]);
  }

  /** The same with its unit, if it has one. */
  public static String shown(Symbol symbol, long[] cells) {
    boolean plain = symbol.unit().isEmpty() || symbol.type() == Type.BOOL;
    return plain ? print(symbol, cells) : print(symbol, cells) + " " + symbol.unit();
  }

  /** A type as declarations write it. */
  public static String typeName(Type type, Enumeration enumeration, int length) {
    return switch (type) {
      case ENUM -> enumeration == null ? "ENUM" : enumeration.name();
      case STRING -> length == 0 ? "STRING" : "STRING[" + length + "]";
      default -> type.name();
    };
  }

  /** A number with at most six significant digits, never in a local format. */
  public static String number(double value) {
    if (value == StrictMath.rint(value) && Math.abs(value) < 1e9) {
      return Long.toString((long) value);
    }
    String text = String.format(Locale.ROOT, "%.6g", value);
    int exponent = text.indexOf('e');
    if (exponent < 0) {
      return text.contains(".") ? withoutZeros(text) : text;
    }
    return withoutZeros(text.substring(0, exponent))
        + "e"
        + Integer.parseInt(text.substring(exponent + 1));
  }

  private static String withoutZeros(String digits) {
    return digits.replaceAll("0+$", "").replaceAll("\\.$", ".0");
  }

  /** A duration in microseconds as an IEC 61131-3 literal: {@code T#1m30s}. */
  public static String time(long micros) {
    StringBuilder out = new StringBuilder("T#");
    if (micros < 0) {
      out.append('-');
    }
    long rest = Math.abs(micros); // of the least value it stays negative: read it as unsigned
    int start = out.length();
    rest = part(out, rest, 3_600_000_000L, "h");
    rest = part(out, rest, 60_000_000L, "m");
    rest = part(out, rest, 1_000_000L, "s");
    if (rest % 1000 == 0) {
      part(out, rest, 1000, "ms");
    } else {
      out.append(number(rest / 1000.0)).append("ms");
    }
    return out.length() == start ? out.append("0s").toString() : out.toString();
  }

  private static long part(StringBuilder out, long rest, long unit, String name) {
    if (Long.compareUnsigned(rest, unit) >= 0) {
      out.append(Long.toUnsignedString(Long.divideUnsigned(rest, unit))).append(name);
    }
    return Long.remainderUnsigned(rest, unit);
  }
}
