package bufferstop.railway;

import bufferstop.railway.VehicleData.ReverserData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A sequence reverser: forward, neutral, reverse, neutral and again, one step each time track power
 * is interrupted for at least a set time; shorter interruptions leave it where it is (reference
 * F3.10). A locked one never steps; one with a reset goes back to forward after a longer time.
 */
final class Reverser implements Stateful {
  private static final int STATES = 4;

  private final ReverserData data;
  private int state;
  private long offMicros;
  private boolean stuck;

  Reverser(ReverserData data) {
    this.data = data;
    state = data.start();
  }

  /** Takes one step of time with or without power. */
  void step(boolean powered, long micros) {
    if (powered) {
      offMicros = 0;
      return;
    }
    long before = offMicros;
    offMicros += micros;
    if (before < data.stepsAfterMicros() && offMicros >= data.stepsAfterMicros()) {
      advance();
    }
    boolean resets = data.resetsAfterMicros() > 0 && !data.locked() && !stuck;
    if (resets && offMicros >= data.resetsAfterMicros()) {
      state = 0;
    }
  }

  private void advance() {
    if (!data.locked() && !stuck) {
      state = (state + 1) % STATES;
    }
  }

  /** Fault: it is somewhere else in its sequence than anybody counted, one step on. */
  void slip() {
    state = (state + 1) % STATES;
  }

  /** Fault: it does not step. */
  void stick(boolean stuck) {
    this.stuck = stuck;
  }

  /** 0 forward, 1 neutral, 2 reverse, 3 neutral. */
  int state() {
    return state;
  }

  /** +1 forward, -1 reverse, 0 neutral. */
  int direction() {
    return state == 0 ? 1 : state == 2 ? -1 : 0;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeInt(state);
    to.writeLong(offMicros);
    to.writeBoolean(stuck);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    state = from.readInt();
    offMicros = from.readLong();
    stuck = from.readBoolean();
  }
}
