package bufferstop.railway;

import bufferstop.railway.TrackData.TurnoutData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A turnout. Its blades travel evenly between two ends; a contact at each end proves that they lie.
 * A train from the wrong leg pushes them over: a trailable one is then there, any other is damaged
 * and proves nothing more.
 */
final class Turnout implements Stateful {
  final TurnoutData data;
  private double travel; // 0 normal, 1 reverse
  private boolean damaged;
  private boolean stuck;
  private double slowness = 1;
  private int runThroughs;
  private int movedUnder;

  Turnout(TurnoutData data) {
    this.data = data;
    travel = data.startsReverse() ? 1 : 0;
  }

  /** Whether its motor would move it now. */
  boolean wouldMove(boolean reverse) {
    return !damaged && !stuck && travel != (reverse ? 1 : 0);
  }

  /** Moves the blades; returns whether another leg is joined to the toe now. */
  boolean move(double seconds, boolean reverse) {
    int before = leg();
    double step = seconds / (data.moveSeconds() * slowness); // infinite for one that moves at once
    travel = reverse ? Math.min(1, travel + step) : Math.max(0, travel - step);
    return leg() != before;
  }

  /** End of the leg that the blades are nearer to. */
  int leg() {
    return travel < 0.5 ? data.normal().end() : data.reverse().end();
  }

  /** Whether the blades lie fully at one side. */
  boolean lies() {
    return travel == 0 || travel == 1;
  }

  /** A train comes from a leg; returns whether it had to push the blades over. */
  boolean trail(int leg) {
    if (lies() && leg() == leg) {
      return false;
    }
    travel = leg == data.reverse().end() ? 1 : 0;
    damaged |= !data.trailable();
    runThroughs++;
    return true;
  }

  void noteMovedUnder() {
    movedUnder++;
  }

  boolean provesNormal() {
    return travel == 0 && !damaged;
  }

  boolean provesReverse() {
    return travel == 1 && !damaged;
  }

  boolean damaged() {
    return damaged;
  }

  int runThroughs() {
    return runThroughs;
  }

  int movedUnder() {
    return movedUnder;
  }

  /** Fault: the blades do not move. */
  void stick(boolean stuck) {
    this.stuck = stuck;
  }

  /** Fault: moving takes so many times its time. */
  void slow(double times) {
    slowness = times;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(travel);
    to.writeBoolean(damaged);
    to.writeBoolean(stuck);
    to.writeDouble(slowness);
    to.writeInt(runThroughs);
    to.writeInt(movedUnder);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    travel = from.readDouble();
    damaged = from.readBoolean();
    stuck = from.readBoolean();
    slowness = from.readDouble();
    runThroughs = from.readInt();
    movedUnder = from.readInt();
  }
}
