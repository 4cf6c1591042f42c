package bufferstop.st;

import bufferstop.model.SystemCells;

/** The running count of evaluation errors, and the place of the first. */
final class Faults {
  private Faults() {}

  /**
   * Counts one error.
   *
   * @param place number of the expression that failed, as {@link
   *     bufferstop.model.Diagnostics#placeOf} gave it; 0 when it has none
   * @return 0, the value of an operation that failed
   */
  static long raise(long[] cells, int place) {
    if (cells[SystemCells.ERRORS]++ == 0) {
      cells[SystemCells.FIRST_ERROR] = place;
    }
    return 0;
  }

  /** Starts to watch; what it returns goes to {@link #failedSince}. */
  static long watch(long[] cells) {
    return cells[SystemCells.ERRORS];
  }

  /** Ends the watch: whether an error was counted since. */
  static boolean failedSince(long[] cells, long watched) {
    return cells[SystemCells.ERRORS] != watched;
  }
}
