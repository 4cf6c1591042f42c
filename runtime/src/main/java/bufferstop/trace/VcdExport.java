package bufferstop.trace;

import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.io.IOException;
import java.io.Writer;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Writes a trace as a value change dump, timescale 1 µs. BOOL is a wire of one bit, REAL and LREAL
 * are reals, all else registers of their size in two's complement, TIME in µs, enumerations their
 * number. A STRING is a register of eight bits a character, as that language keeps texts: the last
 * character in the lowest bits, zeros before the first. Dots in names make scopes; the name of an
 * element of an array is an escaped identifier, since an index would mean a bit. What has no value
 * in the format, the events, is left out. Source: IEEE 1364-2005, 2.6, 2.7.1 and 18.2.1
 * [second-hand].
 */
public final class VcdExport {
  private static final int FIRST_CODE = '!';
  private static final int CODES = 94;

  private final TraceReader trace;
  private final List<Symbol> chosen;
  private final String[] codes;
  private final Writer out;

  private VcdExport(TraceReader trace, List<Symbol> chosen, Writer out) {
    this.trace = trace;
    this.chosen = chosen.stream().sorted(Comparator.comparing(Symbol::name)).toList();
    this.out = out;
    codes = new String[trace.symbols().size()];
  }

  /**
   * Writes all scans of a trace.
   *
   * @param trace fresh from {@link TraceReader#open}
   * @param chosen values to write
   */
  public static void write(TraceReader trace, List<Symbol> chosen, Writer out) throws IOException {
    VcdExport export = new VcdExport(trace, chosen, out);
    export.declarations();
    export.changes();
  }

  private void declarations() throws IOException {
    out.write("$version Bufferstop trace $end\n$timescale 1 us $end\n$scope module run $end\n");
    List<String> open = new ArrayList<>();
    int number = 0;
    for (Symbol symbol : chosen) {
      List<String> path = List.of(symbol.name().split("\\."));
      List<String> scopes = path.subList(0, path.size() - 1);
      int common = 0;
      while (common < Math.min(open.size(), scopes.size())
          && open.get(common).equals(scopes.get(common))) {
        common++;
      }
      while (open.size() > common) {
        open.remove(open.size() - 1);
        out.write("$upscope $end\n");
      }
      for (String scope : scopes.subList(common, scopes.size())) {
        open.add(scope);
        out.write("$scope module " + scope + " $end\n");
      }
      codes[symbol.index()] = code(number++);
      out.write(
          "$var %s %d %s %s $end\n"
              .formatted(
                  kind(symbol.type()),
                  size(symbol),
                  codes[symbol.index()],
                  identifier(path.get(path.size() - 1))));
    }
    for (int i = 0; i <= open.size(); i++) {
      out.write("$upscope $end\n");
    }
    out.write("$enddefinitions $end\n");
  }

  /** Letters that simple readers take for values are left out by a prefix no value begins with. */
  private static String code(int number) {
    StringBuilder code = new StringBuilder("%");
    int rest = number;
    do {
      code.append((char) (FIRST_CODE + rest % CODES));
      rest /= CODES;
    } while (rest > 0);
    return code.toString();
  }

  private static String kind(Type type) {
    return type == Type.BOOL ? "wire" : type.isReal() ? "real" : "reg";
  }

  private static String identifier(String name) {
    return name.indexOf('[') < 0 ? name : "\\" + name;
  }

  private static int size(Symbol symbol) {
    return switch (symbol.type()) {
      case BOOL -> 1;
      case REAL, LREAL -> 64;
      case STRING -> Byte.SIZE * symbol.length();
      default -> symbol.type().bits();
    };
  }

  private void changes() throws IOException {
    boolean first = true;
    long end = -1;
    while (trace.next()) {
      if (first) {
        out.write("#" + trace.nowMicros() + "\n$dumpvars\n");
        for (Symbol symbol : chosen) {
          out.write(change(symbol));
        }
        out.write("$end\n");
        first = false;
      } else {
        scan();
      }
      end = trace.nowMicros();
    }
    if (!first) {
      out.write("#" + (end + trace.periodMicros()) + "\n");
    }
  }

  private void scan() throws IOException {
    boolean said = false;
    for (int i = 0; i < trace.changes(); i++) {
      int cell = trace.changed(i);
      if (codes[cell] != null) {
        out.write(said ? "" : "#" + trace.nowMicros() + "\n");
        out.write(change(trace.symbols().get(cell)));
        said = true;
      }
    }
  }

  private String change(Symbol symbol) {
    long bits = trace.cells()[symbol.index()];
    String code = codes[symbol.index()] + "\n";
    if (symbol.type() == Type.BOOL) {
      return (bits != 0 ? "1" : "0") + code;
    }
    if (symbol.type().isReal()) {
      return "r" + Double.longBitsToDouble(bits) + " " + code;
    }
    if (symbol.type() == Type.STRING) {
      String text = StringCells.unpack(trace.cells(), symbol.index());
      byte[] characters = text.getBytes(StandardCharsets.ISO_8859_1);
      return "b" + new BigInteger(1, characters).toString(2) + " " + code;
    }
    int size = size(symbol);
    return "b" + Long.toBinaryString(size == 64 ? bits : bits & (1L << size) - 1) + " " + code;
  }
}
