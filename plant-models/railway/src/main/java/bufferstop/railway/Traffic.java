package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;

/**
 * What trains do to the track and the track to trains: turnouts run through or moved under them,
 * trains side by side where two legs meet, curves taken too fast, and how many trains stand in each
 * block.
 */
final class Traffic implements Placement.Passing, Stateful {
  private final Stock stock;
  private final Placement placement;
  private final Track track;
  private final Occupancy occupancy;
  private final Hazards hazards;
  private final Happenings happenings;
  private final boolean[] fouled;
  private final int[] trains;
  private final int[] seen;
  private boolean moved;

  Traffic(Stock stock, Occupancy occupancy, int blocks, Hazards hazards, Happenings happenings) {
    this.stock = stock;
    placement = stock.placement;
    track = placement.track;
    this.occupancy = occupancy;
    this.hazards = hazards;
    this.happenings = happenings;
    fouled = new boolean[track.turnouts.size()];
    trains = new int[blocks];
    seen = new int[blocks];
  }

  /** Moves a turnout as it is told to. */
  void move(Turnout turnout, double seconds, boolean reverse) {
    if (!turnout.wouldMove(reverse)) {
      return;
    }
    boolean under = false;
    for (int i = 0; i < stock.count; i++) {
      if (placement.legUnder(i, turnout) != TrackData.NO_END && !stock.derailed[i]) {
        under = true;
        hazards.derail(i);
      }
    }
    if (under) {
      turnout.noteMovedUnder();
      happenings.happened(Happening.MOVED_UNDER, 0);
    }
    moved |= turnout.move(seconds, reverse);
  }

  /** Whether another way was joined since this was last asked. */
  boolean takeMoved() {
    boolean was = moved;
    moved = false;
    return was;
  }

  @Override
  public void throughTurnout(int vehicle, int end) {
    Turnout turnout = track.turnout(end);
    boolean facing = end == turnout.data.toe().end();
    if (facing && !turnout.lies()) {
      hazards.derail(vehicle);
    }
    if (!facing) {
      for (int other = 0; other < stock.count; other++) {
        int leg = placement.legUnder(other, turnout);
        if (other != vehicle && leg != TrackData.NO_END && leg != end) {
          hazards.sideswiped(vehicle, other);
        }
      }
      if (turnout.trail(end)) {
        happenings.happened(Happening.RUN_THROUGH, 0);
      }
    }
  }

  @Override
  public void beyondTheTrack(int vehicle) {
    hazards.derail(vehicle);
  }

  /** After the trains have moved. */
  void watch() {
    for (int n = 0; n < fouled.length; n++) {
      Turnout turnout = track.turnouts.get(n);
      if (turnout.data.foulingMetres() > 0) {
        foul(n, turnout);
      }
    }
    if (track.curved) {
      for (int i = 0; i < stock.count; i++) {
        placement.locate(i, 0);
        if (Math.abs(stock.speed(i)) > track.derailsAbove(placement.foundSegment())) {
          hazards.derail(i);
        }
      }
    }
  }

  private void foul(int n, Turnout turnout) {
    int one = near(turnout.data.normal().end(), turnout.data.foulingMetres());
    int other = near(turnout.data.reverse().end(), turnout.data.foulingMetres());
    boolean foul = one >= 0 && other >= 0 && one != other;
    if (foul && !fouled[n]) {
      hazards.sideswiped(one, other);
    }
    fouled[n] = foul;
  }

  /** A vehicle within some distance of an end of a segment; -1 when there is none. */
  private int near(int end, double metres) {
    int segment = end / 2;
    boolean high = end % 2 == 1;
    double from = high ? track.length[segment] - metres : 0;
    int n = occupancy.firstBeyond(segment, from);
    boolean there = n < occupancy.count(segment) && (high || occupancy.low(segment, n) < metres);
    return there ? occupancy.who(segment, n) : -1;
  }

  /** Counts the trains in each block; a train is what is coupled. */
  void count() {
    if (trains.length == 0) {
      return;
    }
    Arrays.fill(trains, 0);
    Arrays.fill(seen, -1);
    int train = 0;
    for (int k = 0; k < stock.count; k++) {
      int i = stock.who[k];
      for (int n = 0; n < placement.ways(i); n++) {
        int block = track.data.segments().get(Track.segment(placement.way(i, n))).block();
        if (block >= 0 && seen[block] != train) {
          seen[block] = train;
          trains[block]++;
        }
      }
      train += stock.coupled[k] ? 0 : 1;
    }
  }

  int trains(int block) {
    return trains[block];
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(moved);
    for (boolean each : fouled) {
      to.writeBoolean(each);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    moved = from.readBoolean();
    for (int n = 0; n < fouled.length; n++) {
      fouled[n] = from.readBoolean();
    }
  }
}
