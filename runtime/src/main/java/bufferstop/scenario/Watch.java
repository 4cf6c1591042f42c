package bufferstop.scenario;

import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** Keeps the last few changes of some values, so that a failure can show what led to it. */
final class Watch {
  private static final int KEPT = 4;

  private final List<Symbol> symbols;
  private final long[][] bits;
  private final String[][] texts; // of STRINGs
  private final long[][] since;
  private final int[] changes;

  Watch(List<Symbol> symbols) {
    this.symbols = symbols;
    bits = new long[symbols.size()][KEPT];
    texts = new String[symbols.size()][KEPT];
    since = new long[symbols.size()][KEPT];
    changes = new int[symbols.size()];
  }

  /** Takes the image after a scan. */
  void observe(long[] cells, long nowMicros) {
    for (int i = 0; i < changes.length; i++) {
      long value = cells[symbols.get(i).index()];
      String text = text(symbols.get(i), cells);
      int last = Math.max(0, changes[i] - 1) % KEPT;
      if (changes[i] == 0 || bits[i][last] != value || !Objects.equals(texts[i][last], text)) {
        bits[i][changes[i] % KEPT] = value;
        texts[i][changes[i] % KEPT] = text;
        since[i][changes[i] % KEPT] = nowMicros;
        changes[i]++;
      }
    }
  }

  private static String text(Symbol symbol, long[] cells) {
    return symbol.type() == Type.STRING ? StringCells.unpack(cells, symbol.index()) : null;
  }

  /** A line for each value: what it is now, since when, and what it was before. */
  List<String> lines() {
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < changes.length; i++) {
      if (changes[i] > 0) {
        lines.add(line(i));
      }
    }
    return lines;
  }

  private String line(int i) {
    Symbol symbol = symbols.get(i);
    StringBuilder line = new StringBuilder(symbol.name()).append(" = ");
    int last = changes[i] - 1;
    line.append(show(symbol, bits[i][last % KEPT], texts[i][last % KEPT]));
    line.append(" since ").append(Values.time(since[i][last % KEPT]));
    for (int c = last - 1; c >= Math.max(0, last - KEPT + 1); c--) {
      line.append(c == last - 1 ? "; before: " : ", ");
      line.append(show(symbol, bits[i][c % KEPT], texts[i][c % KEPT]));
      line.append(" from ").append(Values.time(since[i][c % KEPT]));
    }
    return line.toString();
  }

  private static String show(Symbol symbol, long bits, String text) {
    if (text != null) {
      return StringCells.literal(text);
    }
    String value = Values.print(symbol.type(), symbol.enumeration(), bits);
    boolean plain = symbol.unit().isEmpty() || symbol.type() == Type.BOOL;
    return plain ? value : value + " " + symbol.unit();
  }
}
