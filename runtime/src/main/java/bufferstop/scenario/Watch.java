package bufferstop.scenario;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;

/** Keeps the last few changes of some values, so that a failure can show what led to it. */
final class Watch {
  private static final int KEPT = 4;

  private final List<Symbol> symbols;
  private final long[][] bits;
  private final long[][] since;
  private final int[] changes;

  Watch(List<Symbol> symbols) {
    this.symbols = symbols;
    bits = new long[symbols.size()][KEPT];
    since = new long[symbols.size()][KEPT];
    changes = new int[symbols.size()];
  }

  /** Takes the image after a scan. */
  void observe(long[] cells, long nowMicros) {
    for (int i = 0; i < changes.length; i++) {
      long value = cells[symbols.get(i).index()];
      if (changes[i] == 0 || bits[i][(changes[i] - 1) % KEPT] != value) {
        bits[i][changes[i] % KEPT] = value;
        since[i][changes[i] % KEPT] = nowMicros;
        changes[i]++;
      }
    }
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
    line.append(show(symbol, bits[i][last % KEPT]));
    line.append(" since ").append(Values.time(since[i][last % KEPT]));
    for (int c = last - 1; c >= Math.max(0, last - KEPT + 1); c--) {
      line.append(c == last - 1 ? "; before: " : ", ");
      line.append(show(symbol, bits[i][c % KEPT]));
      line.append(" from ").append(Values.time(since[i][c % KEPT]));
    }
    return line.toString();
  }

  private static String show(Symbol symbol, long bits) {
    String value = Values.print(symbol.type(), symbol.enumeration(), bits);
    boolean plain = symbol.unit().isEmpty() || symbol.type() == Type.BOOL;
    return plain ? value : value + " " + symbol.unit();
  }
}
