package bufferstop.program;

import bufferstop.st.Expression;

/**
 * One permissive, interlock or trip with its causes and their first-out. A cause acts when a trip's
 * condition holds, or when a condition that must hold does not. The causes first seen acting are
 * kept, all of one scan alike, until none acts (permissive, interlock) or until the reset (trip).
 */
final class InterlockGroup {
  private final Expression[] causes;
  private final boolean actsWhen; // value of a condition that makes it act
  private final Expression reset; // null unless a trip
  private final int stateCell; // .ok or .tripped
  private final int[] firstCells; // .first.NAME, or empty
  private final int[] safeOutputs;
  private boolean acting;
  private boolean lastReset;

  /**
   * @param trip latching, acting when a condition holds
   */
  InterlockGroup(
      Expression[] causes,
      boolean trip,
      Expression reset,
      int stateCell,
      int[] firstCells,
      int[] safeOutputs) {
    this.causes = causes;
    this.actsWhen = trip;
    this.reset = reset;
    this.stateCell = stateCell;
    this.firstCells = firstCells;
    this.safeOutputs = safeOutputs;
  }

  /** Values before the first scan: nothing acts. */
  void start(long[] cells) {
    cells[stateCell] = actsWhen ? 0 : 1;
  }

  /** Evaluates the group and holds its outputs while it acts. */
  void step(long[] cells, Outputs outputs) {
    boolean present = false;
    boolean wasActing = acting;
    boolean freshReset = freshReset(cells);
    for (int i = 0; i < causes.length; i++) {
      boolean acts = causes[i].truth(cells) == actsWhen;
      present |= acts;
      if (!wasActing && firstCells.length > 0) {
        cells[firstCells[i]] = acts ? 1 : 0;
      }
    }
    acting = present || actsWhen && wasActing && !freshReset;
    if (!acting && wasActing) {
      for (int cell : firstCells) {
        cells[cell] = 0;
      }
    }
    cells[stateCell] = acting == actsWhen ? 1 : 0;
    if (acting) {
      for (int output : safeOutputs) {
        outputs.hold(output, actsWhen);
      }
    }
  }

  /** A reset acts on its rising edge, so that one held down is none. */
  private boolean freshReset(long[] cells) {
    boolean level = reset != null && reset.truth(cells);
    boolean fresh = level && !lastReset;
    lastReset = level;
    return fresh;
  }
}
