package bufferstop.plant;

import bufferstop.model.Fault;
import bufferstop.spi.RandomStream;

/**
 * One wire at work: takes the value at its source, does to it what its fault does, and tells the
 * result. It has one fault at a time; the last one set wins.
 */
final class WireRun {
  private final String name;
  private final boolean bool;
  private final RandomStream random;
  private WireFault fault; // null while sound
  private Fault cause; // of the fault; null when nobody asks for its end
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

  /** The wire's own stream, for faults that are random. */
  RandomStream random() {
    return random;
  }

  /** Sets a fault; {@code because} is what {@link #end} asks for, or null. */
  void begin(WireFault effect, Fault because) {
    fault = effect;
    cause = because;
    effect.begin(last);
  }

  /** Ends one fault; another that took its place in the meantime stays. */
  void end(Fault ended) {
    if (cause == ended) {
      clear();
    }
  }

  /** What is wrong with it now; null while it is sound, or when nobody asks. */
  Fault cause() {
    return fault == null ? null : cause;
  }

  void clear() {
    fault = null;
    cause = null;
  }

  /** What arrives at the far end in this step. */
  double deliver(double value) {
    last = fault == null ? value : fault.apply(value);
    return last;
  }
}
