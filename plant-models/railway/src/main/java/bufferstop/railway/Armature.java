package bufferstop.railway;

import bufferstop.spi.SplitMix64;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * The moving part of a relay: its contact follows the coil after an operate or a release time, and
 * bounces after closing. A coil that changes back in that time leaves the contact where it was.
 */
final class Armature implements Stateful {
  private final long operateMicros;
  private final long releaseMicros;
  private final long bounceMicros;
  private final SplitMix64 chance;
  private boolean coil;
  private boolean closed;
  private long sinceMicros;
  private long bounceEndMicros;
  private boolean contact;

  Armature(long operateMicros, long releaseMicros, long bounceMicros, long seed) {
    this.operateMicros = operateMicros;
    this.releaseMicros = releaseMicros;
    this.bounceMicros = bounceMicros;
    chance = new SplitMix64(seed);
  }

  void start(boolean energised) {
    coil = energised;
    closed = energised;
    contact = energised;
  }

  /** The contact after a step that ends at {@code nowMicros}. */
  boolean step(boolean energised, long nowMicros) {
    if (energised != coil) {
      coil = energised;
      sinceMicros = nowMicros;
    }
    long delay = coil ? operateMicros : releaseMicros;
    if (closed != coil && nowMicros - sinceMicros >= delay) {
      closed = coil;
      bounceEndMicros = nowMicros + bounceMicros;
    }
    contact = closed && (nowMicros >= bounceEndMicros || chance.nextDouble() < 0.5);
    return contact;
  }

  boolean contact() {
    return contact;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(coil);
    to.writeBoolean(closed);
    to.writeBoolean(contact);
    to.writeLong(sinceMicros);
    to.writeLong(bounceEndMicros);
    chance.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    coil = from.readBoolean();
    closed = from.readBoolean();
    contact = from.readBoolean();
    sinceMicros = from.readLong();
    bounceEndMicros = from.readLong();
    chance.restore(from);
  }
}
