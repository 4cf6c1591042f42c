package bufferstop.railway;

import bufferstop.railway.LineData.CounterData;
import bufferstop.spi.SplitMix64;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** An axle counting head: counts axles either way and gives a pulse for each. */
final class Counter implements Stateful {
  final CounterData data;
  private final SplitMix64 chance;
  private long up;
  private long down;
  private long pulseEndMicros;
  private double missed;
  private double misaligned;

  Counter(CounterData data, long seed) {
    this.data = data;
    chance = new SplitMix64(seed);
  }

  /** Distance of the head from the low end of its segment, m. */
  double at() {
    return data.place().offsetMetres() + misaligned;
  }

  void count(boolean towardsHigh, long nowMicros) {
    if (missed > 0 && chance.nextDouble() < missed) {
      return;
    }
    up += towardsHigh ? 1 : 0;
    down += towardsHigh ? 0 : 1;
    pulseEndMicros = nowMicros + data.pulseMicros();
  }

  /** Fault: each axle is missed with this chance. */
  void miss(double share) {
    missed = share;
  }

  void misalign(double metres) {
    misaligned = metres;
  }

  double up() {
    return up;
  }

  double down() {
    return down;
  }

  boolean pulse(long nowMicros) {
    return nowMicros < pulseEndMicros;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeLong(up);
    to.writeLong(down);
    to.writeLong(pulseEndMicros);
    to.writeDouble(missed);
    to.writeDouble(misaligned);
    chance.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    up = from.readLong();
    down = from.readLong();
    pulseEndMicros = from.readLong();
    missed = from.readDouble();
    misaligned = from.readDouble();
    chance.restore(from);
  }
}
