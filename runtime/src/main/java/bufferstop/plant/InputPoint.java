package bufferstop.plant;

import bufferstop.model.Type;

/**
 * A controller input at its terminal: what arrives, after the filter of the hardware. On the
 * controller's own rack the scan reads that at once; on a remote node it reads what the link last
 * brought. What a device of the real field brings takes the place of all that.
 */
final class InputPoint implements RealInput {
  private final int cell;
  private final Type type;
  private final InputFilter filter; // null without one
  private final boolean remote;
  private double arriving;
  private double filtered;
  private long reported;
  private boolean lost; // its node is
  private boolean real;
  private long brought;
  private boolean trusted;

  /**
   * @param filterMicros 0 for none
   * @param remote on a node
   */
  InputPoint(int cell, Type type, long filterMicros, boolean remote) {
    this.cell = cell;
    this.remote = remote;
    this.type = type;
    filter = filterMicros > 0 ? new InputFilter(filterMicros) : null;
  }

  int cell() {
    return cell;
  }

  void arrive(double value) {
    arriving = value;
  }

  void start() {
    filtered = arriving;
    if (filter != null) {
      filter.start(arriving);
    }
  }

  void step(long stepMicros) {
    filtered = filter == null ? arriving : filter.step(arriving, stepMicros);
  }

  /** What the scan reads. */
  long read() {
    if (real) {
      return brought;
    }
    return remote ? reported : measured();
  }

  /** Whether the scan may trust what it reads: the link that brings it is there. */
  boolean isGood() {
    return real ? trusted : !lost;
  }

  @Override
  public void use(boolean it) {
    real = it;
  }

  @Override
  public void bring(long bits) {
    brought = bits;
  }

  @Override
  public void trust(boolean good) {
    trusted = good;
  }

  /** What the link brought. */
  void report(long bits) {
    reported = bits;
  }

  /** Whether the link has been down for too long. */
  void lose(boolean down) {
    lost = down;
  }

  /** FALSE or 0 in place of what the link no longer brings. */
  void substitute() {
    reported = 0;
  }

  /** The value at the terminal. */
  long measured() {
    return switch (type) {
      case BOOL -> filtered != 0 ? 1 : 0;
      case REAL -> Double.doubleToLongBits((float) filtered);
      default -> Double.doubleToLongBits(filtered);
    };
  }
}
