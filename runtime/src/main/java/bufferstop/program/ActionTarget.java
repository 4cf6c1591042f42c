package bufferstop.program;

/**
 * All actions of a sequence on one BOOL: Q is TRUE while a step asks with N, after one asked with
 * S, in the scan of entry with P, and as {@link TimedAction} says; R wins over all. Source: IEC
 * 61131-3:2003, 2.6.4.5 and Table 45 [re-read], Figure 15 [from memory, not re-read].
 */
final class ActionTarget {

  /**
   * Steps by number that ask for the target, by qualifier.
   *
   * @param timed null when none asks with a time; more than one would contend
   */
  record Requests(int[] whileActive, int[] set, int[] reset, int[] pulse, TimedAction timed) {}

  private final int cell;
  private final Requests requests;
  private boolean stored;

  ActionTarget(int cell, Requests requests) {
    this.cell = cell;
    this.requests = requests;
  }

  /** Writes the target, after the evolution of this scan. */
  void step(SequenceRunner sequence, long[] cells) {
    TimedAction timed = requests.timed;
    if (sequence.isAbortBeginning()) {
      stored = false;
      if (timed != null) {
        timed.clearStored();
      }
    }
    boolean reset = anyActive(requests.reset, sequence, cells);
    stored = !reset && (stored || anyActive(requests.set, sequence, cells));
    boolean inTime = timed != null && timed.step(reset, sequence, cells);
    boolean asked =
        stored
            || inTime
            || anyActive(requests.whileActive, sequence, cells)
            || anyEntered(requests.pulse, sequence);
    cells[cell] = asked && !reset ? 1 : 0;
  }

  private static boolean anyActive(int[] steps, SequenceRunner sequence, long[] cells) {
    for (int step : steps) {
      if (sequence.isActive(step, cells)) {
        return true;
      }
    }
    return false;
  }

  private static boolean anyEntered(int[] steps, SequenceRunner sequence) {
    for (int step : steps) {
      if (sequence.isEntered(step)) {
        return true;
      }
    }
    return false;
  }
}
