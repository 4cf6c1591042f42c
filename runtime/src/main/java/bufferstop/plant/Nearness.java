package bufferstop.plant;

import bufferstop.model.Symbol;
import bufferstop.st.Expression;
import bufferstop.st.Structure;
import java.util.List;

/**
 * How near one comparison inside a hazard is to making the hazard true: grows towards it, whether
 * the quantity is dangerous when high or when low.
 */
final class Nearness {
  private final Structure.Comparison comparison;
  private final boolean wanted; // whether the comparison helps the hazard by being true
  private final List<Symbol> reads;

  private Nearness(Structure.Comparison comparison, boolean wanted, List<Symbol> reads) {
    this.comparison = comparison;
    this.wanted = wanted;
    this.reads = reads;
  }

  /** Adds one for each comparison that AND, OR and NOT make a condition from. */
  static void collect(Expression condition, List<Nearness> found) {
    collect(condition, true, found);
  }

  private static void collect(Expression part, boolean wanted, List<Nearness> found) {
    Structure structure = part.structure();
    if (structure instanceof Structure.And and) {
      and.parts().forEach(p -> collect(p, wanted, found));
    } else if (structure instanceof Structure.Or or) {
      or.parts().forEach(p -> collect(p, wanted, found));
    } else if (structure instanceof Structure.Not not) {
      collect(not.part(), !wanted, found);
    } else if (structure instanceof Structure.Comparison comparison) {
      found.add(new Nearness(comparison, wanted, part.reads()));
    }
  }

  boolean reads(Symbol port) {
    return reads.contains(port);
  }

  /** Positive when the comparison stands as the hazard needs it; NaN when it cannot be told. */
  double over(long[] cells) {
    double rise = comparison.left().real(cells) - comparison.right().real(cells);
    double towardsTrue =
        switch (comparison.operator()) {
          case ">", ">=" -> rise;
          case "<", "<=" -> -rise;
          case "=" -> -Math.abs(rise);
          default -> Math.abs(rise);
        };
    return wanted ? towardsTrue : -towardsTrue;
  }
}
