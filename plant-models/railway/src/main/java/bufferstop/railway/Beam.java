package bufferstop.railway;

import bufferstop.railway.LineData.BeamData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A light barrier across the track with hysteresis in the covered share of its width (reference
 * 6.1, F6.1). It is looked at once a step. A through-beam whose emitter is dead sees something, a
 * reflective head sees nothing (reference 6.3).
 */
final class Beam implements Stateful {
  final BeamData data;
  final Chain chain;
  private final Occupancy occupancy;
  private boolean dead;

  Beam(BeamData data, Occupancy occupancy, long seed) {
    this.data = data;
    this.occupancy = occupancy;
    chain = new Chain(data.chain(), seed);
  }

  void start() {
    chain.start(look());
  }

  void step(long stepMicros, long nowMicros) {
    chain.step(look(), stepMicros, nowMicros);
  }

  /** Fault: no light. */
  void kill(boolean dead) {
    this.dead = dead;
  }

  private boolean look() {
    if (dead) {
      return !data.reflective();
    }
    double middle = data.place().offsetMetres() + chain.beside();
    double low = middle - data.widthMetres() / 2;
    double high = middle + data.widthMetres() / 2;
    double share = occupancy.covered(data.place().segment(), low, high) / data.widthMetres();
    return chain.seen() ? share > data.clearShare() : share >= data.blockedShare();
  }

  /** Value of its output. */
  boolean on() {
    return chain.given() == data.dark();
  }

  boolean reportsBlocked() {
    return chain.given();
  }

  /** Shortest time for which its output keeps a value that matters, s. */
  double shortestSeconds(double shortestBody, double gap, double speed) {
    double more = data.widthMetres() * (1 - data.blockedShare() - data.clearShare());
    double pulse = chain.left(Math.max(0, shortestBody + more) / speed, false);
    boolean seen = gap > (1 - data.clearShare()) * data.widthMetres();
    double pause = chain.left(seen ? (gap - more) / speed : 0, true);
    return data.gaps() ? Math.min(pulse, pause) : pulse;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(dead);
    chain.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    dead = from.readBoolean();
    chain.restore(from);
  }
}
