package bufferstop.plant;

/**
 * The filter of a digital input: delays both edges by its time and drops anything shorter. Kind of
 * filter: F6.4a, both edges [derived]; times as IEC 61131-2 inputs have them [second-hand].
 */
final class InputFilter {
  private final long micros;
  private double level;
  private double candidate;
  private long heldMicros;

  InputFilter(long micros) {
    this.micros = micros;
  }

  /** Starts settled at a level. */
  void start(double value) {
    level = value;
    candidate = value;
  }

  /** The filtered level after one step at {@code value}. */
  double step(double value, long stepMicros) {
    if (value != candidate) {
      candidate = value;
      heldMicros = 0;
    }
    heldMicros += stepMicros;
    if (heldMicros >= micros) {
      level = candidate;
    }
    return level;
  }
}
