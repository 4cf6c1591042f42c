package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Where every vehicle stands: the ways it stands on, from its rear to its front, and how far along
 * the first and the last of them its rear and its front are.
 */
final class Placement implements Stateful {
  /** Most segments under one vehicle. */
  static final int MOST = 64;

  /** Told when an end of a vehicle goes through something. */
  interface Passing {
    /** Through a turnout, against its blades or with them. */
    void throughTurnout(int vehicle, int end);

    /** Beyond an open end. */
    void beyondTheTrack(int vehicle);
  }

  final Track track;
  final double[] lengthOf;
  private final int[][] way;
  private final int[] size;
  private final double[] rearAt;
  private final double[] frontAt;
  private final boolean[] off;
  private boolean changed;

  // Where locate last looked.
  private int foundWay;
  private double foundAlong;

  Placement(Track track, double[] lengthOf) {
    this.track = track;
    this.lengthOf = lengthOf;
    int count = lengthOf.length;
    way = new int[count][MOST];
    size = new int[count];
    rearAt = new double[count];
    frontAt = new double[count];
    off = new boolean[count];
  }

  /**
   * Puts a vehicle on the track, its middle so far along a way that it faces along.
   *
   * @return by how much it stands beyond the end of the track, m; 0 when it does not
   */
  double put(int i, int onWay, double along) {
    double half = lengthOf[i] / 2;
    way[i][0] = onWay;
    size[i] = 1;
    rearAt[i] = along - half;
    frontAt[i] = along + half;
    double beyond = 0;
    while (frontAt[i] > frontLength(i) && beyond == 0) {
      beyond = growFront(i) ? 0 : frontAt[i] - frontLength(i);
    }
    while (rearAt[i] < 0 && beyond == 0) {
      beyond = growRear(i) ? 0 : -rearAt[i];
    }
    return beyond;
  }

  /** The end of the track a vehicle last put stands beyond: its front's, or its rear's. */
  int endOfFront(int i) {
    return way[i][size[i] - 1];
  }

  int endOfRear(int i) {
    return way[i][0] ^ 1;
  }

  boolean frontBeyond(int i) {
    return frontAt[i] > frontLength(i);
  }

  private double frontLength(int i) {
    return track.length(way[i][size[i] - 1]);
  }

  private boolean growFront(int i) {
    int next = track.next(way[i][size[i] - 1]);
    if (next == Track.NO_WAY || size[i] == MOST) {
      return false;
    }
    frontAt[i] -= frontLength(i);
    way[i][size[i]++] = next;
    return true;
  }

  private boolean growRear(int i) {
    int next = track.next(way[i][0] ^ 1);
    if (next == Track.NO_WAY || size[i] == MOST) {
      return false;
    }
    System.arraycopy(way[i], 0, way[i], 1, size[i]);
    way[i][0] = next ^ 1;
    size[i]++;
    rearAt[i] += track.length(next);
    return true;
  }

  /** Moves a vehicle by so much towards its front. */
  void move(int i, double metres, Passing passing) {
    frontAt[i] += metres;
    rearAt[i] += metres;
    if (metres > 0) {
      while (frontAt[i] > frontLength(i) && leave(i, way[i][size[i] - 1], passing)) {
        growFront(i);
      }
      while (size[i] > 1 && rearAt[i] > track.length(way[i][0])) {
        rearAt[i] -= track.length(way[i][0]);
        dropRear(i);
      }
    } else {
      while (rearAt[i] < 0 && leave(i, way[i][0] ^ 1, passing)) {
        growRear(i);
      }
      while (size[i] > 1 && frontAt[i] < 0) {
        size[i]--;
        frontAt[i] += frontLength(i);
        changed |= track.kind(way[i][size[i] - 1]) != Track.Kind.JOINT;
      }
    }
  }

  private void dropRear(int i) {
    changed |= track.kind(way[i][0]) != Track.Kind.JOINT;
    size[i]--;
    System.arraycopy(way[i], 1, way[i], 0, size[i]);
  }

  /** An end of a vehicle comes to an end of a segment; returns whether it goes on from there. */
  private boolean leave(int i, int end, Passing passing) {
    switch (track.kind(end)) {
      case TOE, LEG -> {
        changed = true;
        passing.throughTurnout(i, end);
        return true;
      }
      case OPEN -> {
        if (!off[i]) {
          off[i] = true;
          passing.beyondTheTrack(i);
        }
        return false;
      }
      default -> {
        return track.kind(end) == Track.Kind.JOINT;
      }
    }
  }

  /** Whether somebody went through a turnout since this was last asked. */
  boolean takeChanged() {
    boolean was = changed;
    changed = false;
    return was;
  }

  int ways(int i) {
    return size[i];
  }

  /** The {@code n}th way under a vehicle, counted from its rear. */
  int way(int i, int n) {
    return way[i][n];
  }

  int frontWay(int i) {
    return way[i][size[i] - 1];
  }

  double frontAlong(int i) {
    return frontAt[i];
  }

  double rearAlong(int i) {
    return rearAt[i];
  }

  /** Where along its {@code n}th way a vehicle begins, and ends. */
  double from(int i, int n) {
    return n == 0 ? rearAt[i] : 0;
  }

  double to(int i, int n) {
    return n == size[i] - 1 ? frontAt[i] : track.length(way[i][n]);
  }

  /** Looks for the place so far from the middle of a vehicle towards its front. */
  void locate(int i, double fromMiddle) {
    int n = 0;
    double along = rearAt[i] + lengthOf[i] / 2 + fromMiddle;
    while (n < size[i] - 1 && along > track.length(way[i][n])) {
      along -= track.length(way[i][n]);
      n++;
    }
    foundWay = way[i][n];
    foundAlong = along;
  }

  /** The way on which the place last looked for lies. */
  int foundWay() {
    return foundWay;
  }

  int foundSegment() {
    return foundWay >> 1;
  }

  /** Its distance from the low end of that segment. */
  double foundOffset() {
    return track.offset(foundWay, foundAlong);
  }

  double foundAlong() {
    return foundAlong;
  }

  /**
   * Whether a vehicle stands across a turnout; the leg it stands on, or {@link TrackData#NO_END}.
   */
  int legUnder(int i, Turnout turnout) {
    int toe = turnout.data.toe().end();
    for (int n = 0; n + 1 < size[i]; n++) {
      if (way[i][n] == toe) {
        return way[i][n + 1] ^ 1;
      }
      if ((way[i][n + 1] ^ 1) == toe) {
        return way[i][n];
      }
    }
    return TrackData.NO_END;
  }

  /** Mean rise over length under a vehicle, towards its front. */
  double gradient(int i) {
    double sum = 0;
    for (int n = 0; n < size[i]; n++) {
      sum += (to(i, n) - from(i, n)) * track.gradient(way[i][n]);
    }
    return sum / lengthOf[i];
  }

  /** How that mean changes for each metre towards its front. */
  double gradientChange(int i) {
    double change = track.gradient(way[i][size[i] - 1]) - track.gradient(way[i][0]);
    return change / lengthOf[i];
  }

  /** Mean curvature under a vehicle, 1/m. */
  double curvature(int i) {
    double sum = 0;
    for (int n = 0; n < size[i]; n++) {
      sum += (to(i, n) - from(i, n)) * track.curvature(way[i][n] >> 1);
    }
    return sum / lengthOf[i];
  }

  @Override
  public void save(DataOutput to) throws IOException {
    for (int i = 0; i < size.length; i++) {
      to.writeInt(size[i]);
      for (int n = 0; n < size[i]; n++) {
        to.writeInt(way[i][n]);
      }
      to.writeDouble(rearAt[i]);
      to.writeDouble(frontAt[i]);
      to.writeBoolean(off[i]);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    for (int i = 0; i < size.length; i++) {
      size[i] = from.readInt();
      for (int n = 0; n < size[i]; n++) {
        way[i][n] = from.readInt();
      }
      rearAt[i] = from.readDouble();
      frontAt[i] = from.readDouble();
      off[i] = from.readBoolean();
    }
  }
}
