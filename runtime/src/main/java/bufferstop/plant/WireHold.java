package bufferstop.plant;

import bufferstop.model.Fault;

/** A wire whose far end is held at a value that may change from scan to scan. */
public final class WireHold {
  private final WireRun wire;
  private final Fault cause; // tells this hold from other faults of the wire
  private Held held;

  /** The value that arrives. */
  private static final class Held extends WireFault {
    private double value;

    @Override
    double apply(double entering) {
      return value;
    }
  }

  WireHold(WireRun wire, Fault cause) {
    this.wire = wire;
    this.cause = cause;
  }

  /** Whether the wire carries a BOOL, 0 or 1. */
  public boolean isBool() {
    return wire.isBool();
  }

  /** Begins to hold the wire; the last fault that was set wins. */
  public void begin(double value) {
    held = new Held();
    held.value = value;
    wire.begin(held, cause);
  }

  /** Another value, if the wire is still held. */
  public void change(double value) {
    held.value = value;
  }

  /** Lets the wire go, unless another fault has taken it. */
  public void end() {
    wire.end(cause);
  }
}
