package bufferstop.program;

/**
 * All actions on one BOOL: Q is TRUE while a step asks with N or after one asked with S; R wins
 * over both. Source: IEC 61131-3:2003, 2.6.4.5 and Table 45 [re-read], Figure 15 [from memory, not
 * re-read].
 */
final class ActionTarget {
  private final int cell;
  private final int[] whileActive; // step cells with N
  private final int[] set; // step cells with S
  private final int[] reset; // step cells with R
  private boolean stored;

  ActionTarget(int cell, int[] whileActive, int[] set, int[] reset) {
    this.cell = cell;
    this.whileActive = whileActive;
    this.set = set;
    this.reset = reset;
  }

  void clearStored() {
    stored = false;
  }

  /** Writes the target. */
  void step(long[] cells) {
    boolean overriding = any(reset, cells);
    stored = !overriding && (stored || any(set, cells));
    cells[cell] = !overriding && (stored || any(whileActive, cells)) ? 1 : 0;
  }

  private static boolean any(int[] steps, long[] cells) {
    for (int step : steps) {
      if (cells[step] != 0) {
        return true;
      }
    }
    return false;
  }
}
