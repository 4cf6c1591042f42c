package bufferstop.railway;

import bufferstop.railway.LineData.ReedData;
import bufferstop.spi.SplitMix64;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A reed switch in the track and the magnets that pass it: closes at one distance, opens at a
 * greater one (reference F6.5), and bounces for 0.5 to 1 ms after closing (reference 6.4,
 * reed-sensor.com glossary [re-read]). Opening does not bounce.
 */
final class Reed implements Stateful {
  private static final double SHORTEST_BOUNCE_MICROS = 500;
  private static final double BOUNCE_SPREAD_MICROS = 500;

  final ReedData data;
  final Chain chain;
  private final Magnets magnets;
  private final SplitMix64 chance;
  private boolean closed;
  private long bounceEndMicros;

  Reed(ReedData data, Magnets magnets, long seed) {
    this.data = data;
    this.magnets = magnets;
    chance = new SplitMix64(seed);
    chain = new Chain(data.chain(), seed ^ 0x9E3779B9L);
  }

  void start() {
    closed = near(data.operateMetres());
    chain.start(closed);
  }

  void step(long stepMicros, long nowMicros) {
    boolean before = closed;
    closed = near(closed ? data.releaseMetres() : data.operateMetres());
    if (closed && !before) {
      double micros = SHORTEST_BOUNCE_MICROS + BOUNCE_SPREAD_MICROS * chance.nextDouble();
      bounceEndMicros = nowMicros + (long) micros;
    }
    boolean contact = closed && (nowMicros >= bounceEndMicros || chance.nextDouble() < 0.5);
    chain.step(contact, stepMicros, nowMicros);
  }

  private boolean near(double metres) {
    double across = data.closestMetres();
    double at = data.place().offsetMetres() + chain.beside();
    double along = magnets.nearest(data.place().segment(), at);
    return along * along + across * across <= metres * metres;
  }

  boolean on() {
    return chain.given();
  }

  /** Shortest time for which it is closed, s. */
  double shortestSeconds(double speed) {
    double across = data.closestMetres() * data.closestMetres();
    double on = Math.sqrt(Math.max(0, data.operateMetres() * data.operateMetres() - across));
    double off = Math.sqrt(Math.max(0, data.releaseMetres() * data.releaseMetres() - across));
    return chain.left((on + off) / speed, false);
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(closed);
    to.writeLong(bounceEndMicros);
    chance.save(to);
    chain.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    closed = from.readBoolean();
    bounceEndMicros = from.readLong();
    chance.restore(from);
    chain.restore(from);
  }
}
