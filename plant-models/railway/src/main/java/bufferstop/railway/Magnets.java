package bufferstop.railway;

import java.util.Arrays;
import java.util.stream.IntStream;

/** The magnets under vehicles, by segment and in order along it; made anew after every move. */
final class Magnets {
  private final Stock stock;
  private final int[] vehicles;
  private final int[] count;
  private final double[][] at;

  Magnets(Stock stock) {
    this.stock = stock;
    vehicles =
        IntStream.range(0, stock.count)
            .filter(i -> !Double.isNaN(stock.data.get(i).magnetMetres()))
            .toArray();
    int segments = stock.placement.track.segments;
    count = new int[segments];
    at = new double[segments][vehicles.length];
  }

  void take() {
    Arrays.fill(count, 0);
    for (int i : vehicles) {
      stock.placement.locate(i, stock.data.get(i).magnetMetres());
      int segment = stock.placement.foundSegment();
      double offset = stock.placement.foundOffset();
      int n = count[segment]++;
      while (n > 0 && at[segment][n - 1] > offset) {
        at[segment][n] = at[segment][n - 1];
        n--;
      }
      at[segment][n] = offset;
    }
  }

  /**
   * Distance along a segment from a place to the nearest magnet, m; infinite where there is none.
   */
  double nearest(int segment, double offset) {
    int from = 0;
    int to = count[segment];
    while (from < to) {
      int middle = (from + to) >>> 1;
      if (at[segment][middle] < offset) {
        from = middle + 1;
      } else {
        to = middle;
      }
    }
    double above = from < count[segment] ? at[segment][from] - offset : Double.POSITIVE_INFINITY;
    double below = from > 0 ? offset - at[segment][from - 1] : Double.POSITIVE_INFINITY;
    return Math.min(above, below);
  }
}
