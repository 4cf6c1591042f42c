package bufferstop.railway;

import bufferstop.railway.LineData.ReedData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A reed switch in the track and the magnet that passes it: closes at one distance, opens at a
 * greater one (reference F6.5), and bounces for 0.5 to 1 ms after closing (reference 6.4,
 * reed-sensor.com glossary [re-read]). Opening does not bounce.
 */
final class Reed {
  private static final double SHORTEST_BOUNCE_MICROS = 500;
  private static final double BOUNCE_SPREAD_MICROS = 500;

  final ReedData data;
  private final Train train;
  private final double magnetOffset;
  private final Chance chance;
  private boolean closed;
  private boolean contact;
  private long bounceEndMicros;

  Reed(ReedData data, Train train, double magnetOffset, long seed) {
    this.data = data;
    this.train = train;
    this.magnetOffset = magnetOffset;
    chance = new Chance(seed);
  }

  void start() {
    closed = near(data.operateMetres());
    contact = closed;
  }

  void step(long nowMicros) {
    boolean before = closed;
    closed = near(closed ? data.releaseMetres() : data.operateMetres());
    if (closed && !before) {
      double micros = SHORTEST_BOUNCE_MICROS + BOUNCE_SPREAD_MICROS * chance.share();
      bounceEndMicros = nowMicros + (long) micros;
    }
    contact = closed && (nowMicros >= bounceEndMicros || chance.share() < 0.5);
  }

  private boolean near(double metres) {
    double along = train.x[train.loco] + magnetOffset - data.positionMetres();
    double across = data.closestMetres();
    return along * along + across * across <= metres * metres;
  }

  boolean on() {
    return contact;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(closed);
    to.writeBoolean(contact);
    to.writeLong(bounceEndMicros);
    to.writeLong(chance.state());
  }

  void restore(DataInput from) throws IOException {
    closed = from.readBoolean();
    contact = from.readBoolean();
    bounceEndMicros = from.readLong();
    chance.resume(from.readLong());
  }
}
