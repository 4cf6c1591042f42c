package bufferstop.scenario;

import bufferstop.scenario.ExpectationResult.Margin;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntFunction;

/** The extreme of a distance in each unit, with its moment. */
final class Worst {
  private final boolean greatest;
  private final double[] extreme;
  private final long[] atMicros;

  /**
   * @param greatest keeps the greatest distance instead of the least
   * @param units how many units there are
   */
  Worst(boolean greatest, int units) {
    this.greatest = greatest;
    extreme = new double[units];
    Arrays.fill(extreme, greatest ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY);
    atMicros = new long[units];
  }

  void observe(int unit, double distance, long nowMicros) {
    if (greatest ? distance > extreme[unit] : distance < extreme[unit]) {
      extreme[unit] = distance;
      atMicros[unit] = nowMicros;
    }
  }

  double extreme(int unit) {
    return extreme[unit];
  }

  long atMicros(int unit) {
    return atMicros[unit];
  }

  /** Adds the distances that are finite, each with its unit, never -0.0. */
  void addTo(List<Margin> margins, IntFunction<String> unit) {
    for (int i = 0; i < extreme.length; i++) {
      if (!Double.isInfinite(extreme[i])) {
        margins.add(new Margin(extreme[i] + 0.0, unit.apply(i), atMicros[i]));
      }
    }
  }
}
