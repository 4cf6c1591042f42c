package bufferstop.railway;

import bufferstop.spi.Settings;
import java.util.List;

/**
 * A track as its settings describe it. An end of a segment is a number, twice the segment's own,
 * plus 1 for the high end; {@link #NO_END} where the settings name none.
 */
record TrackData(
    List<SegmentData> segments,
    List<JointData> joints,
    List<TurnoutData> turnouts,
    List<BufferData> buffers,
    List<EndUse> openEnds,
    double curveResistanceMetres,
    double lateralLimit) {

  static final int NO_END = -1;

  /**
   * A piece of track.
   *
   * @param gradient rise over length towards the high end
   * @param radiusMetres 0 when straight
   * @param speedLimit in m/s, the line's fastest where the segment has none; 0 when none is told
   * @param feed number of its feed, -1 when it has none
   * @param block number of its block, -1 when it has none
   */
  record SegmentData(
      String name,
      double fromMetres,
      double lengthMetres,
      double gradient,
      double radiusMetres,
      double cantRadians,
      double speedLimit,
      int feed,
      int block,
      Settings at) {
    double toMetres() {
      return fromMetres + lengthMetres;
    }
  }

  /** An end as a parameter names it. */
  record EndUse(int end, Settings at, String parameter) {}

  record JointData(EndUse from, EndUse to) {}

  record TurnoutData(
      String name,
      EndUse toe,
      EndUse normal,
      EndUse reverse,
      double moveSeconds,
      double foulingMetres,
      boolean trailable,
      boolean startsReverse) {}

  /** One stage of a friction buffer stop. */
  record Stage(double newtons, double travelMetres) {}

  record BufferData(String name, EndUse end, List<Stage> stages) {}

  /** A place: how far from the low end of which segment. */
  record Place(int segment, double offsetMetres) {}

  double post(Place place) {
    return segments.get(place.segment).fromMetres + place.offsetMetres;
  }

  String endName(int end) {
    return segments.get(end / 2).name + (end % 2 == 0 ? ".low" : ".high");
  }
}
