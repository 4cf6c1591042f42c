package bufferstop.trace;

import bufferstop.model.Csv;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes a trace as comma-separated values by RFC 4180: the time in milliseconds, then a column for
 * each value. BOOL is 0 or 1, TIME milliseconds, numbers plain with a point, bit strings as
 * unsigned numbers, enumerations by name, a STRING as its characters.
 */
public final class CsvExport {
  private CsvExport() {}

  /**
   * Writes all scans of a trace.
   *
   * @param trace fresh from {@link TraceReader#open}
   * @param chosen values to write
   * @param onChange only the first scan and those in which one of the values changed
   */
  public static void write(TraceReader trace, List<Symbol> chosen, boolean onChange, Writer out)
      throws IOException {
    List<String> fields = new ArrayList<>(List.of("time_ms"));
    boolean[] wanted = new boolean[trace.symbols().size()];
    for (Symbol symbol : chosen) {
      fields.add(symbol.name());
      wanted[symbol.index()] = true;
    }
    out.write(Csv.line(fields));
    boolean first = true;
    while (trace.next()) {
      if (first || !onChange || changes(trace, wanted)) {
        fields.clear();
        fields.add(value(Type.TIME, trace.nowMicros()));
        for (Symbol symbol : chosen) {
          fields.add(value(symbol, trace.cells()));
        }
        out.write(Csv.line(fields));
      }
      first = false;
    }
  }

  private static boolean changes(TraceReader trace, boolean[] wanted) {
    for (int i = 0; i < trace.changes(); i++) {
      if (wanted[trace.changed(i)]) {
        return true;
      }
    }
    return false;
  }

  private static String value(Symbol symbol, long[] cells) {
    return symbol.type() == Type.STRING
        ? StringCells.unpack(cells, symbol.index())
        : symbol.enumeration() != null
            ? symbol.enumeration().print(cells[symbol.index()])
            : value(symbol.type(), cells[symbol.index()]);
  }

  static String value(Type type, long bits) {
    return switch (type) {
      case BOOL -> bits != 0 ? "1" : "0";
      case REAL -> plain(Float.toString((float) Double.longBitsToDouble(bits)));
      case LREAL -> plain(Double.toString(Double.longBitsToDouble(bits)));
      case TIME -> plain(BigDecimal.valueOf(bits, 3).toString());
      case ULINT, LWORD -> Long.toUnsignedString(bits);
      default -> Long.toString(bits);
    };
  }

  /** Without an exponent and without zeros at the end; what is no number as it is. */
  private static String plain(String number) {
    if (number.indexOf('N') >= 0 || number.indexOf('I') >= 0) {
      return number; // NaN, Infinity
    }
    BigDecimal value = new BigDecimal(number).stripTrailingZeros();
    return value.toPlainString();
  }
}
