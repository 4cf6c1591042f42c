package bufferstop.scenario;

import java.util.ArrayList;
import java.util.List;

/**
 * How far one or two conditions are from changing their value, apart for each unit that occurs in
 * them: the distance in a unit is what its quantities alone would have to change by, everything
 * else being as it was. What is measured in different units is never compared.
 */
final class Distances {
  private final List<String> units;
  private final Robustness[][] byCondition;
  private final String named; // what the user calls the unit; empty to take that of the quantity

  private Distances(List<String> units, Robustness[][] byCondition, String named) {
    this.units = units;
    this.byCondition = byCondition;
    this.named = named;
  }

  /** Of some conditions, asked for by their number. */
  static Distances of(String named, Condition... conditions) {
    List<String> units = new ArrayList<>();
    for (Condition condition : conditions) {
      Robustness.units(condition.spelled(), units);
    }
    Robustness[][] all = new Robustness[conditions.length][];
    for (int c = 0; c < all.length; c++) {
      Condition condition = conditions[c];
      all[c] =
          units.stream()
              .map(unit -> Robustness.of(condition.spelled(), unit))
              .toArray(Robustness[]::new);
    }
    return new Distances(List.copyOf(units), all, named);
  }

  int count() {
    return units.size();
  }

  /** What the user called it, if there is no doubt which unit he meant. */
  String unit(int unit) {
    return named.isEmpty() || units.size() > 1 ? units.get(unit) : named;
  }

  /**
   * The distance of a condition in one unit.
   *
   * @param holds the verdict on this image; a distance on the other side of it counts as 0, as when
   *     peaks of one scan that make a hazard together came in different plant steps
   */
  double of(int condition, int unit, long[] cells, boolean holds) {
    double distance = byCondition[condition][unit].distance(cells);
    if (Double.isNaN(distance)) {
      return holds ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    }
    return holds ? Math.max(distance, 0.0) : Math.min(distance, 0.0);
  }
}
