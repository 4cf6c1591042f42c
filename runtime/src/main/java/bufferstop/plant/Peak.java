package bufferstop.plant;

import bufferstop.model.Symbol;
import java.util.List;

/**
 * Holds the worst value of one port over a scan: the one at which a comparison that reads it came
 * nearest to its hazard; the one of greatest magnitude when no comparison does.
 */
final class Peak {
  private final int cell;
  private final Nearness[] comparisons;
  private double nearest;
  private long held;

  Peak(Symbol port, List<Nearness> all) {
    cell = port.index();
    comparisons = all.stream().filter(n -> n.reads(port)).toArray(Nearness[]::new);
  }

  /** At the beginning of a scan's steps, with live values. */
  void begin(long[] cells) {
    nearest = Double.NEGATIVE_INFINITY;
    held = cells[cell];
  }

  /** After every plant step. */
  void observe(long[] cells) {
    if (comparisons.length == 0) {
      hold(Math.abs(Double.longBitsToDouble(cells[cell])), cells);
    }
    for (Nearness comparison : comparisons) {
      hold(comparison.over(cells), cells);
    }
  }

  private void hold(double near, long[] cells) {
    if (near > nearest) {
      nearest = near;
      held = cells[cell];
    }
  }

  /** At the end of a scan's steps. */
  void show(long[] cells) {
    cells[cell] = held;
  }
}
