package bufferstop.plant;

import bufferstop.model.Fault;
import bufferstop.spi.RandomStream;
import java.util.Arrays;

/**
 * One wire at work: takes the value at its source, does to it what faults do, and tells the result.
 */
final class WireRun {
  private final String name;
  private final boolean bool;
  private final RandomStream random;
  private WireFaultMode mode; // null while sound
  private Fault cause; // of the mode; null when nobody asks for its end
  private double stuckAt;
  private boolean takeStuckValue;
  private double[] line = {}; // values on their way, for DELAY
  private int at;
  private double flipChance;
  private boolean flipped;
  private double last;

  WireRun(String name, boolean bool, RandomStream random) {
    this.name = name;
    this.bool = bool;
    this.random = random;
  }

  String name() {
    return name;
  }

  boolean isBool() {
    return bool;
  }

  /** Stays at {@code value}, or at the present one when it is NaN. */
  void stick(double value) {
    mode = WireFaultMode.STUCK;
    stuckAt = value;
    takeStuckValue = Double.isNaN(value);
  }

  /** Every change arrives {@code steps} steps late. */
  void delay(int steps) {
    mode = WireFaultMode.DELAY;
    line = new double[Math.max(1, steps)];
    Arrays.fill(line, last);
    at = 0;
  }

  /** Flips with a chance in every step. */
  void chatter(double chance) {
    mode = WireFaultMode.CHATTER;
    flipChance = chance;
    flipped = false;
  }

  /** Any fault that needs nothing more said. */
  void set(WireFaultMode simple) {
    mode = simple;
  }

  /** Says which fault the present mode comes from, for {@link #end}. */
  void blame(Fault fault) {
    cause = fault;
  }

  /** Ends one fault; another that took its place in the meantime stays. */
  void end(Fault fault) {
    if (cause == fault) {
      clear();
    }
  }

  void clear() {
    mode = null;
    cause = null;
  }

  /** What arrives at the far end in this step. */
  double deliver(double value) {
    last = mode == null ? value : faulty(value);
    return last;
  }

  private double faulty(double value) {
    return switch (mode) {
      case STUCK -> {
        if (takeStuckValue) {
          stuckAt = last;
          takeStuckValue = false;
        }
        yield stuckAt;
      }
      case OPEN -> 0;
      case SHORT -> 1;
      case INVERTED -> value != 0 ? 0 : 1;
      case DELAY -> delayed(value);
      case CHATTER -> {
        flipped ^= random.nextDouble() < flipChance;
        yield flipped ? (value != 0 ? 0 : 1) : value;
      }
    };
  }

  private double delayed(double value) {
    double arrives = line[at];
    line[at] = value;
    at = (at + 1) % line.length;
    return arrives;
  }
}
