package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;

/**
 * Finds the rows anew whenever a turnout has moved or somebody went through one. From each end of
 * each vehicle the way is followed, as the turnouts lie, to the next vehicle or to the end of the
 * track; two vehicles are neighbours when either finds the other.
 */
final class Rows implements Stateful {
  private static final int NOBODY = -1;

  private final Stock stock;
  private final Placement placement;
  private final Track track;
  private final Occupancy occupancy;
  private final List<? extends Drive> drives;
  private final int[] neighbour; // of end 2 i (rear) and 2 i + 1 (front): an end, or NOBODY
  private final double[] distance;
  private final EndStop[] stop;
  private final boolean[] placed;
  private final int[] order;
  private final int[] newFacing;
  private final double[] speed; // towards the front, by vehicle
  private final int[] mate; // end coupled to or in contact with, by end
  private final int[] touch; // contact, by end
  private final boolean[] joined; // coupled, by end
  private final int[] oldFacing;
  private boolean ring;
  private int divided;

  Rows(Stock stock, Occupancy occupancy, List<? extends Drive> drives) {
    this.stock = stock;
    placement = stock.placement;
    track = placement.track;
    this.occupancy = occupancy;
    this.drives = drives;
    int n = stock.count;
    neighbour = new int[2 * n];
    distance = new double[2 * n];
    stop = new EndStop[2 * n];
    placed = new boolean[n];
    order = new int[n];
    newFacing = new int[n];
    speed = new double[n];
    mate = new int[2 * n];
    touch = new int[2 * n];
    joined = new boolean[2 * n];
    oldFacing = new int[n];
  }

  /** Whether somebody stands on a ring, where the ends of the row must be found again and again. */
  boolean hasRing() {
    return ring;
  }

  /** How many couplers lost their partner so far because a turnout lay between. */
  int divided() {
    return divided;
  }

  /** Makes the rows; the occupancy is that of the present places. */
  void link() {
    remember();
    for (int end = 0; end < neighbour.length; end++) {
      look(end);
    }
    for (int end = 0; end < neighbour.length; end++) {
      int other = neighbour[end];
      if (other != NOBODY && neighbour[other] != end) {
        neighbour[end] = NOBODY;
      }
    }
    arrange();
    recall();
  }

  private void remember() {
    Arrays.fill(mate, NOBODY);
    Arrays.fill(touch, Stock.FREE);
    Arrays.fill(joined, false);
    for (int k = 0; k < stock.count; k++) {
      int i = stock.who[k];
      speed[i] = stock.v[k] * stock.facing[k];
      oldFacing[i] = stock.facing[k];
      if (k < stock.count - 1) {
        int ahead = i * 2 + (stock.facing[k] > 0 ? 1 : 0);
        int behind = stock.who[k + 1] * 2 + (stock.facing[k + 1] > 0 ? 0 : 1);
        touch[ahead] = stock.contact[k];
        joined[ahead] = stock.coupled[k];
        joined[behind] = stock.coupled[k];
        if (stock.coupled[k] || stock.contact[k] != Stock.FREE) {
          mate[ahead] = behind;
          mate[behind] = ahead;
        }
      }
    }
  }

  /** Looks along the track from an end of a vehicle. */
  private void look(int end) {
    int i = end / 2;
    neighbour[end] = NOBODY;
    stop[end] = null;
    distance[end] = 0;
    if (placement.ways(i) == 0) {
      return; // where it stands is in doubt, while settings are checked
    }
    boolean front = end % 2 == 1;
    int way = front ? placement.frontWay(i) : placement.way(i, 0) ^ 1;
    double along = front ? placement.frontAlong(i) : track.length(way) - placement.rearAlong(i);
    distance[end] = -along;
    int n = step(way, indexOn(Track.segment(way), i));
    for (int hops = 0; hops <= 2 * track.segments; hops++) {
      int segment = Track.segment(way);
      if (n >= 0 && n < occupancy.count(segment)) {
        meet(end, way, n);
        return;
      }
      distance[end] += track.length(way);
      stop[end] = track.stop(way);
      way = track.next(way);
      if (way == Track.NO_WAY) {
        return;
      }
      n = Track.towardsHigh(way) ? 0 : occupancy.count(Track.segment(way)) - 1;
    }
  }

  private static int step(int way, int n) {
    return Track.towardsHigh(way) ? n + 1 : n - 1;
  }

  private int indexOn(int segment, int i) {
    int n = 0;
    while (occupancy.who(segment, n) != i) {
      n++;
    }
    return n;
  }

  private void meet(int end, int way, int n) {
    int segment = Track.segment(way);
    int other = occupancy.who(segment, n);
    boolean itsRear = placement.way(other, 0) == way;
    boolean itsFront = placement.frontWay(other) == (way ^ 1);
    if (other == end / 2 || !itsRear && !itsFront) {
      return; // itself round a ring, or somebody across a turnout from another leg
    }
    double near =
        Track.towardsHigh(way)
            ? occupancy.low(segment, n)
            : track.length(way) - occupancy.high(segment, n);
    distance[end] += near;
    neighbour[end] = other * 2 + (itsRear ? 0 : 1);
  }

  private void arrange() {
    Arrays.fill(placed, false);
    stock.rows = 0;
    ring = false;
    int next = 0;
    for (int i = 0; i < stock.count; i++) {
      if (!placed[i]) {
        next = row(i, next);
      }
    }
  }

  /** Makes the row of a vehicle, which faces along it, from a place on; returns the next place. */
  private int row(int seed, int from) {
    int end = seed * 2; // the end that looks down the row
    int steps = 0;
    while (neighbour[end] != NOBODY && steps++ < stock.count) {
      end = neighbour[end] ^ 1; // through that vehicle
    }
    if (steps > stock.count) {
      ring = true;
      end = openRing(end);
    }
    int k = from;
    int low = end;
    stock.first[stock.rows] = from;
    while (true) {
      int i = end / 2;
      placed[i] = true;
      order[k] = i;
      newFacing[k] = end % 2 == 0 ? 1 : -1;
      k++;
      int up = end ^ 1;
      if (neighbour[up] == NOBODY || placed[neighbour[up] / 2]) {
        close(low, up, k - 1);
        return k;
      }
      end = neighbour[up];
    }
  }

  /** On a ring: the end behind the widest free gap. */
  private int openRing(int start) {
    int end = start;
    int best = start;
    double widest = -1;
    do {
      if (!joined[end] && distance[end] > widest) {
        widest = distance[end];
        best = end;
      }
      end = neighbour[end] ^ 1;
    } while (end != start);
    return best;
  }

  private void close(int low, int high, int lastPlace) {
    int row = stock.rows++;
    stock.last[row] = lastPlace;
    stock.lowStop[row] = neighbour[low] == NOBODY ? stop[low] : null;
    stock.highStop[row] = neighbour[high] == NOBODY ? stop[high] : null;
    int from = stock.first[row];
    double x = 0;
    for (int k = from; k <= lastPlace; k++) {
      int i = order[k];
      int down = i * 2 + (newFacing[k] > 0 ? 0 : 1);
      x += k == from ? stock.half[i] : distance[down] + stock.half[i];
      stock.x[k] = x;
      x += stock.half[i];
    }
    stock.lowFace[row] = -distance[low];
    stock.highFace[row] = x + distance[high];
  }

  private void recall() {
    for (int k = 0; k < stock.count; k++) {
      int i = order[k];
      stock.who[k] = i;
      stock.at[i] = k;
      stock.facing[k] = newFacing[k];
      stock.v[k] = speed[i] * newFacing[k];
      stock.contact[k] = Stock.FREE;
      stock.coupled[k] = false;
    }
    for (int r = 0; r < stock.rows; r++) {
      for (int k = stock.first[r]; k < stock.last[r]; k++) {
        int ahead = order[k] * 2 + (newFacing[k] > 0 ? 1 : 0);
        int behind = order[k + 1] * 2 + (newFacing[k + 1] > 0 ? 0 : 1);
        if (mate[ahead] == behind) {
          stock.coupled[k] = joined[ahead];
          stock.contact[k] = Math.max(touch[ahead], touch[behind]);
          mate[ahead] = NOBODY;
          mate[behind] = NOBODY;
        }
      }
    }
    for (int end = 0; end < mate.length; end++) {
      divided += mate[end] > end && joined[end] ? 1 : 0;
    }
    for (Drive drive : drives) {
      int i = drive.vehicle;
      if (oldFacing[i] != stock.facing[stock.at[i]]) {
        drive.turn();
      }
    }
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(ring);
    to.writeInt(divided);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    ring = from.readBoolean();
    divided = from.readInt();
  }
}
