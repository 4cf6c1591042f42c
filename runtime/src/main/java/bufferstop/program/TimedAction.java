package bufferstop.program;

import bufferstop.model.Controller.Qualifier;

/**
 * A step's request with a time: L, D, SD, DS or SL. Times count from the scan in which the step
 * became active; after a reset while it is still active, those of SD and SL from the scan after it.
 * Source: IEC 61131-3:2003, Table 45 [re-read], Figure 15 [from memory, not re-read].
 */
final class TimedAction {
  private final Qualifier qualifier;
  private final int step;
  private final long micros;
  private boolean stored;
  private long storedMicros; // since when

  TimedAction(Qualifier qualifier, int step, long micros) {
    this.qualifier = qualifier;
    this.step = step;
    this.micros = micros;
  }

  void clearStored() {
    stored = false;
  }

  /** Evaluates it once in this scan; {@code reset} clears what is stored. */
  boolean step(boolean reset, SequenceRunner sequence, long[] cells) {
    boolean active = sequence.isActive(step, cells);
    boolean passed = active && sequence.activeMicros(step) >= micros;
    long now = sequence.nowMicros();
    return switch (qualifier) {
      case L -> active && !passed;
      case D -> passed;
      case DS -> keep(passed, reset, now);
      case SD -> keep(active, reset, now) && now - storedMicros >= micros;
      case SL -> keep(active, reset, now) && now - storedMicros < micros;
      default -> throw new IllegalStateException(qualifier + " has no time");
    };
  }

  private boolean keep(boolean asked, boolean reset, long nowMicros) {
    if (asked && !stored) {
      storedMicros = nowMicros;
    }
    stored = !reset && (stored || asked);
    return stored;
  }
}
