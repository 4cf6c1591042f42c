package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A condition that must hold without a break for a time; counts whole microseconds. */
final class Timed {
  private final long delayMicros;
  private long heldMicros = -1; // -1 while it does not hold

  Timed(double delaySeconds) {
    delayMicros = Math.round(delaySeconds * 1e6);
  }

  /**
   * One step.
   *
   * @param now whether the condition holds at its end
   * @return whether it has held for the delay
   */
  boolean hold(boolean now, long micros) {
    if (!now) {
      heldMicros = -1;
      return false;
    }
    heldMicros = heldMicros < 0 ? 0 : heldMicros + micros;
    return heldMicros >= delayMicros;
  }

  boolean holds() {
    return heldMicros >= 0;
  }

  void save(DataOutput to) throws IOException {
    to.writeLong(heldMicros);
  }

  void restore(DataInput from) throws IOException {
    heldMicros = from.readLong();
  }
}
