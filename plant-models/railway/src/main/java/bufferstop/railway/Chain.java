package bufferstop.railway;

import bufferstop.railway.LineData.ChainData;
import bufferstop.spi.SplitMix64;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * From what a sensor sees to what its wire carries: its own delays and jitter, a conditioner, an
 * input. A change shorter than the delay is not reported.
 */
final class Chain implements Stateful {
  private final ChainData data;
  private final SplitMix64 chance;
  private final double beside; // metres, by tolerance
  private final Conditioner conditioner;
  private final Terminal terminal;
  private double misaligned;
  private boolean seen;
  private boolean reported;
  private boolean given;
  private long sinceMicros;
  private long jitter;

  Chain(ChainData data, long seed) {
    this.data = data;
    chance = new SplitMix64(seed);
    beside = (2 * chance.nextDouble() - 1) * data.toleranceMetres();
    conditioner =
        data.conditioner() == null
            ? null
            : new Conditioner(data.conditioner(), seed ^ 0x5DEECE66DL);
    terminal = data.terminal() == null ? null : new Terminal(data.terminal());
  }

  /** How far the sensor stands beside its position, m. */
  double beside() {
    return beside + misaligned;
  }

  /** Fault: it was knocked so far out of its place. */
  void misalign(double metres) {
    misaligned = metres;
  }

  void start(boolean sees) {
    seen = sees;
    reported = sees;
    given = sees;
    if (conditioner != null) {
      conditioner.start(sees);
    }
    if (terminal != null) {
      terminal.start(sees);
    }
  }

  void step(boolean sees, long stepMicros, long nowMicros) {
    if (sees != seen) {
      seen = sees;
      sinceMicros = nowMicros;
      jitter = data.jitterMicros() > 0 ? (long) (chance.nextDouble() * data.jitterMicros()) : 0;
    }
    long delay = (seen ? data.onMicros() : data.offMicros()) + jitter;
    if (nowMicros - sinceMicros >= delay) {
      reported = seen;
    }
    given = reported;
    if (conditioner != null) {
      given = conditioner.step(given, stepMicros, nowMicros);
    }
    if (terminal != null) {
      given = terminal.step(given, stepMicros);
    }
  }

  boolean seen() {
    return seen;
  }

  boolean given() {
    return given;
  }

  /**
   * What is left of a pulse: t' = t - rise + fall (reference 6.2), nothing of one that is over
   * before it got through.
   *
   * @param seconds how long the sensor sees something, or nothing when {@code gap}
   */
  double left(double seconds, boolean gap) {
    double on = (data.onMicros() + data.jitterMicros()) * 1e-6;
    double off = (data.offMicros() + data.jitterMicros()) * 1e-6;
    if (conditioner != null) {
      on += conditioner.onSeconds();
      off += conditioner.offSeconds();
    }
    if (terminal != null) {
      on += terminal.onSeconds();
      off += terminal.offSeconds();
    }
    double late = gap ? off : on;
    double kept = gap ? on : off;
    return seconds <= late ? 0 : seconds - late + kept;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(misaligned);
    to.writeBoolean(seen);
    to.writeBoolean(reported);
    to.writeBoolean(given);
    to.writeLong(sinceMicros);
    to.writeLong(jitter);
    chance.save(to);
    if (conditioner != null) {
      conditioner.save(to);
    }
    if (terminal != null) {
      terminal.save(to);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    misaligned = from.readDouble();
    seen = from.readBoolean();
    reported = from.readBoolean();
    given = from.readBoolean();
    sinceMicros = from.readLong();
    jitter = from.readLong();
    chance.restore(from);
    if (conditioner != null) {
      conditioner.restore(from);
    }
    if (terminal != null) {
      terminal.restore(from);
    }
  }
}
