package bufferstop.railway;

import bufferstop.railway.TrackData.BufferData;
import bufferstop.railway.TrackData.EndUse;
import bufferstop.railway.TrackData.JointData;
import bufferstop.railway.TrackData.SegmentData;
import bufferstop.railway.TrackData.TurnoutData;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The graph of a track. A segment run through towards one of its ends is called by the number of
 * that end (see {@link TrackData}); the same number with its last bit turned is the other way.
 */
final class Track {
  /** What an end leads to. */
  enum Kind {
    /** Nothing known: reported. */
    NOTHING,
    /** Another end. */
    JOINT,
    /** The blades of a turnout. */
    TOE,
    /** A leg of a turnout. */
    LEG,
    /** A buffer stop. */
    BUFFER,
    /** Nothing, on purpose. */
    OPEN
  }

  /** Number of a way when there is none. */
  static final int NO_WAY = -1;

  final TrackData data;
  final int segments;
  final double[] length;
  final List<Turnout> turnouts = new ArrayList<>();
  final List<EndStop> stops = new ArrayList<>();

  /** Whether any segment rises or falls, or is curved. */
  final boolean graded;

  final boolean curved;
  private final double[] gradient;
  private final double[] curvature;
  private final double[] fastestInCurve;
  private final Kind[] kind;
  private final int[] to; // of a joint the other end, else number of turnout or buffer

  Track(TrackData data) {
    this.data = data;
    segments = data.segments().size();
    length = new double[segments];
    gradient = new double[segments];
    curvature = new double[segments];
    fastestInCurve = new double[segments];
    kind = new Kind[segments * 2];
    to = new int[segments * 2];
    Arrays.fill(kind, Kind.NOTHING);
    boolean rises = false;
    boolean bends = false;
    for (int i = 0; i < segments; i++) {
      SegmentData segment = data.segments().get(i);
      length[i] = segment.lengthMetres();
      gradient[i] = segment.gradient();
      curvature[i] = segment.radiusMetres() > 0 ? 1 / segment.radiusMetres() : 0;
      fastestInCurve[i] = derailingSpeed(segment, data.lateralLimit());
      rises |= gradient[i] != 0;
      bends |= curvature[i] != 0;
    }
    graded = rises;
    curved = bends;
    join();
  }

  /**
   * Speed on a curve at which the sideways acceleration v² cos(c) / R - g sin(c) reaches the limit,
   * c being the cant [derived]; with the limit 0 it is the equilibrium speed √(g R tan c) of
   * OpenStax, University Physics 1, 6.3.
   */
  static double equilibriumSpeed(double radius, double cant, double limit) {
    double sideways = limit + Stock.GRAVITY * StrictMath.sin(cant);
    return Math.sqrt(sideways * radius / StrictMath.cos(cant));
  }

  private static double derailingSpeed(SegmentData segment, double limit) {
    return segment.radiusMetres() > 0 && limit > 0
        ? equilibriumSpeed(segment.radiusMetres(), segment.cantRadians(), limit)
        : Double.POSITIVE_INFINITY;
  }

  private void join() {
    for (JointData joint : data.joints()) {
      set(joint.from(), Kind.JOINT, joint.to().end());
      set(joint.to(), Kind.JOINT, joint.from().end());
    }
    for (TurnoutData turnout : data.turnouts()) {
      int number = turnouts.size();
      turnouts.add(new Turnout(turnout));
      set(turnout.toe(), Kind.TOE, number);
      set(turnout.normal(), Kind.LEG, number);
      set(turnout.reverse(), Kind.LEG, number);
    }
    for (BufferData buffer : data.buffers()) {
      set(buffer.end(), Kind.BUFFER, stops.size());
      stops.add(new EndStop(buffer));
    }
    data.openEnds().forEach(o -> set(o, Kind.OPEN, 0));
  }

  private void set(EndUse use, Kind what, int number) {
    if (use.end() != TrackData.NO_END) {
      kind[use.end()] = what;
      to[use.end()] = number;
    }
  }

  Kind kind(int end) {
    return kind[end];
  }

  /** The turnout an end belongs to. */
  Turnout turnout(int end) {
    return turnouts.get(to[end]);
  }

  /** The buffer stop an end leads to, or null. */
  EndStop stop(int end) {
    return kind[end] == Kind.BUFFER ? stops.get(to[end]) : null;
  }

  /** The way on from the end of a way, as the turnouts lie; {@link #NO_WAY} where there is none. */
  int next(int way) {
    return switch (kind[way]) {
      case JOINT -> to[way] == TrackData.NO_END ? NO_WAY : to[way] ^ 1;
      case TOE -> way(turnouts.get(to[way]).leg());
      case LEG -> way(turnouts.get(to[way]).data.toe().end());
      default -> NO_WAY;
    };
  }

  private static int way(int entered) {
    return entered == TrackData.NO_END ? NO_WAY : entered ^ 1;
  }

  static int segment(int way) {
    return way >> 1;
  }

  static boolean towardsHigh(int way) {
    return (way & 1) == 1;
  }

  double length(int way) {
    return length[way >> 1];
  }

  /** Rise over length in the direction of the way. */
  double gradient(int way) {
    return towardsHigh(way) ? gradient[way >> 1] : -gradient[way >> 1];
  }

  double curvature(int segment) {
    return curvature[segment];
  }

  /** Speed above which a vehicle leaves the rails here, m/s. */
  double derailsAbove(int segment) {
    return fastestInCurve[segment];
  }

  /** Distance from the low end of the segment of a place so far along a way. */
  double offset(int way, double along) {
    return towardsHigh(way) ? along : length[way >> 1] - along;
  }

  double post(int segment, double offset) {
    return data.segments().get(segment).fromMetres() + offset;
  }
}
