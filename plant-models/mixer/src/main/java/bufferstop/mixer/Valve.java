package bufferstop.mixer;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A valve with a spring: opens evenly while driven, closes evenly otherwise. */
final class Valve {
  private final double travelSeconds;
  private double opening;
  private boolean stuck;

  Valve(Settings with) {
    travelSeconds = with.number("travel");
  }

  /** Fault: it stays where it is. */
  void stick(boolean stuck) {
    this.stuck = stuck;
  }

  /** Moves it; returns its mean opening over the step, which ends at a stop within the step. */
  double step(double seconds, boolean driven) {
    if (stuck) {
      return opening;
    }
    double before = opening;
    double travel = seconds / travelSeconds;
    opening = driven ? Math.min(1, before + travel) : Math.max(0, before - travel);
    double moving = Math.abs(opening - before) / travel;
    return opening + moving * (before - opening) / 2;
  }

  boolean isOpened() {
    return opening >= 1;
  }

  boolean isClosed() {
    return opening <= 0;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(opening);
    to.writeBoolean(stuck);
  }

  void restore(DataInput from) throws IOException {
    opening = from.readDouble();
    stuck = from.readBoolean();
  }
}
