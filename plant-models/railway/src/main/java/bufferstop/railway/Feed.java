package bufferstop.railway;

import bufferstop.railway.LineData.FeedData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A supply of the track through its contactors, and what is drawn from it. */
final class Feed implements Stateful {
  final FeedData data;
  private boolean closed;
  private boolean dead;
  private double volts;
  private double amperes;

  Feed(FeedData data) {
    this.data = data;
  }

  /** Sets contactors and supply for the coming step. */
  void set(boolean closed, boolean reversed, boolean boosted, double supplyVolts) {
    this.closed = closed && !dead;
    double full = boosted && supplyVolts != 0 ? data.boostVolts() : supplyVolts;
    volts = reversed ? -full : full;
  }

  /** Fault: nothing reaches the track. */
  void kill(boolean dead) {
    this.dead = dead;
  }

  boolean dead() {
    return dead;
  }

  boolean closed() {
    return closed;
  }

  /** Volts on the track, positive drives a direct-current locomotive to the high end. */
  double trackVolts() {
    return closed ? volts : 0;
  }

  void beginStep() {
    amperes = 0;
  }

  void draw(double more) {
    amperes += more;
  }

  /** Current drawn, A. */
  double amperes() {
    return amperes;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(closed);
    to.writeBoolean(dead);
    to.writeDouble(volts);
    to.writeDouble(amperes);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    closed = from.readBoolean();
    dead = from.readBoolean();
    volts = from.readDouble();
    amperes = from.readDouble();
  }
}
