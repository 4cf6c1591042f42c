package bufferstop.plant;

import bufferstop.model.Type;

/** A controller input at its terminal: what arrives, after the filter of the hardware. */
final class InputPoint {
  private final int cell;
  private final Type type;
  private final InputFilter filter; // null without one
  private double arriving;
  private double filtered;

  /**
   * @param filterMicros 0 for none
   */
  InputPoint(int cell, Type type, long filterMicros) {
    this.cell = cell;
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
    return switch (type) {
      case BOOL -> filtered != 0 ? 1 : 0;
      case REAL -> Double.doubleToLongBits((float) filtered);
      default -> Double.doubleToLongBits(filtered);
    };
  }
}
