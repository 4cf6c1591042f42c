package bufferstop.scenario;

import bufferstop.model.Symbol;
import bufferstop.model.Values;
import bufferstop.st.Expression;
import bufferstop.st.Structure;
import java.util.ArrayList;
import java.util.List;

/**
 * What a failure is explained with: the value of each part of its conditions, then each name with
 * its last few values. Only the lines of the first failure are kept.
 */
final class Evidence {
  private final Condition[] conditions;
  private final Watch watch;
  private List<String> lines;
  private long keptAt = -1;

  Evidence(Condition... conditions) {
    this.conditions = conditions;
    List<Symbol> seen = new ArrayList<>();
    for (Condition condition : conditions) {
      condition.reads().stream().filter(s -> !seen.contains(s)).forEach(seen::add);
    }
    watch = new Watch(seen);
  }

  /** Takes the image after a scan. */
  void observe(long[] cells, long nowMicros) {
    watch.observe(cells, nowMicros);
  }

  /** It failed in this scan. */
  void keep(long[] cells, long nowMicros) {
    if (lines == null) {
      keptAt = nowMicros;
      lines = new ArrayList<>();
      for (Condition condition : conditions) {
        parts(condition.spelled(), cells, true, lines);
      }
      lines.addAll(watch.lines());
    }
  }

  /** When it failed; negative while it has not. */
  long keptAt() {
    return keptAt;
  }

  /** The lines of the failure, or those of the last scan. */
  List<String> lines() {
    return lines == null ? watch.lines() : List.copyOf(lines);
  }

  /**
   * A line for each part of an expression that has several; a name alone shows its values anyway.
   */
  private static void parts(Expression expression, long[] cells, boolean whole, List<String> into) {
    Structure structure = expression.structure();
    if (structure instanceof Structure.And and) {
      and.parts().forEach(p -> parts(p, cells, false, into));
    } else if (structure instanceof Structure.Or or) {
      or.parts().forEach(p -> parts(p, cells, false, into));
    } else if (structure instanceof Structure.Not not && isComposed(not.part())) {
      parts(not.part(), cells, false, into);
    } else if (!whole) {
      String text = expression.source().value().strip();
      into.add(
          "`"
              + text
              + "` is "
              + (expression.truth(cells) ? "TRUE" : "FALSE")
              + by(structure, cells));
    }
  }

  private static boolean isComposed(Expression expression) {
    Structure structure = expression.structure();
    return structure instanceof Structure.And
        || structure instanceof Structure.Or
        || structure instanceof Structure.Not;
  }

  private static String by(Structure structure, long[] cells) {
    if (!(structure instanceof Structure.Comparison comparison)) {
      return "";
    }
    double distance = Math.abs(Robustness.distance(comparison, cells));
    String unit = Robustness.unitOf(comparison);
    return Double.isNaN(distance)
        ? ""
        : " by " + Values.number(distance) + (unit.isEmpty() ? "" : " " + unit);
  }
}
