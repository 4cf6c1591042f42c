package bufferstop.cli;

import bufferstop.engine.ScanStatistics;
import bufferstop.model.Name;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.rig.Rig;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;

/** How a run stands: time, scans, active steps, alarms, and what the project wants shown. */
final class StatusText {
  private static final MathContext DIGITS = new MathContext(5);
  private static final int POINTS_A_LINE = 3;

  private final Rig rig;
  private final ScanStatistics statistics;
  private final List<Symbol> steps;
  private final List<Symbol> points = new ArrayList<>();
  private final int[] cells;
  private final long[] values;

  StatusText(Rig rig, ScanStatistics statistics) {
    this.rig = rig;
    this.statistics = statistics;
    steps =
        rig.layout().observable().stream()
            .filter(s -> s.type() == Type.BOOL && s.name().endsWith(".X"))
            .toList();
    for (Name name : rig.project().status()) {
      points.add(rig.layout().field().find(name.text()));
    }
    List<Symbol> all = new ArrayList<>(steps);
    all.addAll(points);
    all.add(rig.layout().field().find("scan.time"));
    all.add(rig.layout().field().find("alarms.active"));
    cells = all.stream().mapToInt(Symbol::index).toArray();
    values = new long[cells.length];
  }

  /** A line for the run, and lines for the project's points; empty before the first scan. */
  synchronized List<String> lines() {
    if (rig.snapshots().published() < 0) {
      return List.of();
    }
    rig.snapshots().copy(cells, 0, cells.length, values);
    List<String> lines = new ArrayList<>(List.of(run()));
    for (int i = 0; i < points.size(); i += POINTS_A_LINE) {
      List<String> some = new ArrayList<>();
      for (int k = i; k < Math.min(points.size(), i + POINTS_A_LINE); k++) {
        some.add(point(points.get(k), values[steps.size() + k]));
      }
      lines.add(String.join("  ", some));
    }
    return lines;
  }

  private String run() {
    long micros = values[cells.length - 2];
    StringBuilder line = new StringBuilder(Values.time(micros / 1000 * 1000));
    line.append("  ").append(statistics.scans()).append(" scans, ");
    line.append(statistics.skipped()).append(" skipped");
    for (int i = 0; i < steps.size(); i++) {
      if (values[i] != 0) {
        String name = steps.get(i).name();
        line.append("  ").append(name, 0, name.length() - 2);
      }
    }
    return line.append(values[cells.length - 1] != 0 ? "  ALARM" : "").toString();
  }

  private static String point(Symbol symbol, long bits) {
    boolean real = symbol.type().isReal() && Double.isFinite(Double.longBitsToDouble(bits));
    String value =
        real
            ? new BigDecimal(Double.longBitsToDouble(bits), DIGITS)
                .stripTrailingZeros()
                .toPlainString()
            : Values.print(symbol.type(), bits);
    String unit = symbol.unit().isEmpty() ? "" : " " + symbol.unit();
    return symbol.name() + " " + value + unit;
  }
}
