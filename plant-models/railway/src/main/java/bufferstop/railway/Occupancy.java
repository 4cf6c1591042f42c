package bufferstop.railway;

import java.util.Arrays;

/**
 * Which vehicle covers what of each segment, in order along it; made anew after every move. Its
 * cost grows with the number of vehicles, and a question's with its logarithm.
 */
final class Occupancy {
  private final Placement placement;
  private final int vehicles;
  private final int[] count;
  private final double[][] low;
  private final double[][] high;
  private final int[][] who;

  Occupancy(Placement placement, int vehicles) {
    this.placement = placement;
    this.vehicles = vehicles;
    int segments = placement.track.segments;
    count = new int[segments];
    low = new double[segments][vehicles];
    high = new double[segments][vehicles];
    who = new int[segments][vehicles];
  }

  /** Takes the vehicles in an order in which neighbours follow each other. */
  void take(int[] order) {
    Arrays.fill(count, 0);
    for (int k = 0; k < vehicles; k++) {
      int i = order[k];
      for (int n = 0; n < placement.ways(i); n++) {
        add(i, placement.way(i, n), placement.from(i, n), placement.to(i, n));
      }
    }
  }

  private void add(int i, int way, double from, double to) {
    int segment = Track.segment(way);
    double a = placement.track.offset(way, from);
    double b = placement.track.offset(way, to);
    double begin = Math.min(a, b);
    int at = count[segment]++;
    double[] lows = low[segment];
    while (at > 0 && lows[at - 1] > begin) {
      lows[at] = lows[at - 1];
      high[segment][at] = high[segment][at - 1];
      who[segment][at] = who[segment][at - 1];
      at--;
    }
    lows[at] = begin;
    high[segment][at] = Math.max(a, b);
    who[segment][at] = i;
  }

  int count(int segment) {
    return count[segment];
  }

  int who(int segment, int n) {
    return who[segment][n];
  }

  double low(int segment, int n) {
    return low[segment][n];
  }

  double high(int segment, int n) {
    return high[segment][n];
  }

  /** Number of the first vehicle on a segment that reaches beyond an offset. */
  int firstBeyond(int segment, double offset) {
    int from = 0;
    int to = count[segment];
    while (from < to) {
      int middle = (from + to) >>> 1;
      if (high[segment][middle] > offset) {
        to = middle;
      } else {
        from = middle + 1;
      }
    }
    return from;
  }

  /** Length in m that is covered between two offsets of a segment. */
  double covered(int segment, double from, double to) {
    double sum = 0;
    for (int n = firstBeyond(segment, from); n < count[segment] && low[segment][n] < to; n++) {
      sum += Math.min(high[segment][n], to) - Math.max(low[segment][n], from);
    }
    return sum;
  }

  /** Whether anything stands between two offsets of a segment. */
  boolean occupied(int segment, double from, double to) {
    int n = firstBeyond(segment, from);
    return n < count[segment] && low[segment][n] < to;
  }
}
