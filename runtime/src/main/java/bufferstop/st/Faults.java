package bufferstop.st;

/**
 * The running count of evaluation errors in cell 0 (a UDINT that stops at its greatest value), and
 * whether one was counted between two moments.
 */
final class Faults {
  static final int CELL = 0;
  static final long MOST = 0xFFFF_FFFFL;

  private Faults() {}

  /** Counts one error. Returns 0, the value of an operation that failed. */
  static long raise(long[] cells) {
    if (cells[CELL] < MOST) {
      cells[CELL]++;
    }
    return 0;
  }

  /** Starts to watch; what it returns goes to {@link #failedSince}. */
  static long watch(long[] cells) {
    long count = cells[CELL];
    if (count >= MOST) {
      cells[CELL] = MOST - 1; // room to see one more, or a full count would hide every new error
    }
    return count;
  }

  /** Ends the watch: whether an error was counted since. */
  static boolean failedSince(long[] cells, long watched) {
    boolean failed = cells[CELL] != Math.min(watched, MOST - 1);
    if (watched >= MOST) {
      cells[CELL] = MOST;
    }
    return failed;
  }
}
