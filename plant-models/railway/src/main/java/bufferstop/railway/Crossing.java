package bufferstop.railway;

import bufferstop.railway.LineData.CrossingData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A level crossing: barriers that a motor holds up and their weight lowers, a limit switch at each
 * end of their travel, and road lights. A train on it while the barriers are not down is counted.
 */
final class Crossing implements Stateful {
  final CrossingData data;
  private final Stock stock;
  private final Occupancy occupancy;
  private final Happenings happenings;
  private double height = 1; // 0 down to 1 up
  private boolean stuck;
  private boolean dark;
  private boolean lit;
  private boolean occupied;
  private boolean exposed; // a train is on it and the barriers are not down
  private int unprotected;

  Crossing(CrossingData data, Stock stock, Occupancy occupancy, Happenings happenings) {
    this.data = data;
    this.stock = stock;
    this.occupancy = occupancy;
    this.happenings = happenings;
  }

  void start() {
    occupied = look();
  }

  void step(double seconds, boolean raise, boolean lights) {
    if (!stuck) {
      height =
          raise
              ? Math.min(1, height + seconds / data.raiseSeconds())
              : Math.max(0, height - seconds / data.lowerSeconds());
    }
    lit = lights && !dark;
  }

  /** After the trains have moved. */
  void watch() {
    occupied = look();
    boolean now = occupied && height > 0;
    if (now && !exposed) {
      unprotected++;
      happenings.happened(Happening.UNPROTECTED, speedOnIt());
    }
    exposed = now;
  }

  private boolean look() {
    return occupancy.occupied(
        data.from().segment(), data.from().offsetMetres(), data.to().offsetMetres());
  }

  private double speedOnIt() {
    int n = occupancy.firstBeyond(data.from().segment(), data.from().offsetMetres());
    return Math.abs(stock.speed(occupancy.who(data.from().segment(), n)));
  }

  /** Fault: the barriers stay where they are. */
  void stick(boolean stuck) {
    this.stuck = stuck;
  }

  /** Fault: the road lights do not light. */
  void darken(boolean dark) {
    this.dark = dark;
  }

  boolean up() {
    return height >= 1;
  }

  boolean down() {
    return height <= 0;
  }

  double height() {
    return height;
  }

  boolean lit() {
    return lit;
  }

  boolean occupied() {
    return occupied;
  }

  int unprotected() {
    return unprotected;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(height);
    to.writeBoolean(stuck);
    to.writeBoolean(dark);
    to.writeBoolean(lit);
    to.writeBoolean(occupied);
    to.writeBoolean(exposed);
    to.writeInt(unprotected);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    height = from.readDouble();
    stuck = from.readBoolean();
    dark = from.readBoolean();
    lit = from.readBoolean();
    occupied = from.readBoolean();
    exposed = from.readBoolean();
    unprotected = from.readInt();
  }
}
