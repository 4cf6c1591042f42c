package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * An element that operates once a quantity has been above its setting, or below it, for a set time
 * without a break; it lets go at a share of the setting.
 */
final class DefiniteTime {
  private final double pickUp;
  private final double dropOut; // as a quantity
  private final boolean below;
  private final long delayMicros;
  private boolean started;
  private long heldMicros;

  /**
   * @param dropOut share of the pick-up at which it lets go, below 1 for an over-element and above
   *     1 for an under-element
   */
  DefiniteTime(double pickUp, double dropOut, double delaySeconds) {
    this.pickUp = pickUp;
    this.dropOut = pickUp * dropOut;
    below = dropOut > 1;
    delayMicros = Math.round(delaySeconds * 1e6);
  }

  /** One step at whose end the quantity is this; returns whether it operates. */
  boolean step(double quantity, long micros) {
    if (started) {
      started = below ? quantity < dropOut : quantity > dropOut;
    } else {
      started = below ? quantity < pickUp : quantity > pickUp;
      heldMicros = 0; // it holds for the whole of this step
    }
    if (!started) {
      return false;
    }
    heldMicros += micros;
    return heldMicros >= delayMicros;
  }

  boolean started() {
    return started;
  }

  double pickUp() {
    return pickUp;
  }

  double delaySeconds() {
    return delayMicros * 1e-6;
  }

  /** Lets go without regard to the quantity. */
  void clear() {
    started = false;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(started);
    to.writeLong(heldMicros);
  }

  void restore(DataInput from) throws IOException {
    started = from.readBoolean();
    heldMicros = from.readLong();
  }
}
