package bufferstop.railway;

import bufferstop.railway.LineData.BlockData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A block watched by what its axles conduct. A current-sensing one is occupied while the current
 * through all axles is above its threshold (F6.6); a track circuit's relay is shed while the axles
 * in parallel are no more than the shunt it answers to, and while it has no supply.
 */
final class Block implements Stateful {
  final BlockData data;
  final Chain chain;
  private final int number;
  private final Axles axles;
  private final Feed feed; // of its track; null when it has none
  private boolean blind;
  private boolean leaks;

  Block(BlockData data, int number, Axles axles, Feed feed, long seed) {
    this.data = data;
    this.number = number;
    this.axles = axles;
    this.feed = feed;
    chain = new Chain(data.chain(), seed);
  }

  void start() {
    chain.start(occupied());
  }

  void step(long stepMicros, long nowMicros) {
    chain.step(occupied(), stepMicros, nowMicros);
  }

  private boolean occupied() {
    if (leaks) {
      return true;
    }
    double siemens = blind ? 0 : axles.conductance(number);
    double volts = data.biasVolts() > 0 || feed == null ? data.biasVolts() : feed.trackVolts();
    return data.relay()
        ? siemens > 0 && 1 / siemens <= data.shuntOhms()
        : Math.abs(volts) * siemens > data.thresholdAmperes();
  }

  /** Fault: axles do not conduct. */
  void blind(boolean blind) {
    this.blind = blind;
  }

  /** Fault: something conducts. */
  void leak(boolean leaks) {
    this.leaks = leaks;
  }

  /** Value of its output: occupied, of a track circuit clear. */
  boolean on() {
    return chain.given() != data.relay();
  }

  boolean reportsOccupied() {
    return chain.given();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(blind);
    to.writeBoolean(leaks);
    chain.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    blind = from.readBoolean();
    leaks = from.readBoolean();
    chain.restore(from);
  }
}
