package bufferstop.plant;

import bufferstop.model.Symbol;
import bufferstop.st.Expression;

/**
 * Judges the hazards in every plant step, so that none hides between two scans: a hazard that was
 * true in any step of a scan shows TRUE in that scan, and every port that feeds one shows its value
 * of the greatest magnitude.
 */
final class HazardWatch {
  private final Expression[] hazards;
  private final int[] hazardCells;
  private final boolean[] seen;
  private final int[] portCells;
  private final double[] peaks;

  /**
   * @param ports LREAL plant outputs that a hazard reads
   */
  HazardWatch(Expression[] hazards, int[] hazardCells, Symbol[] ports) {
    this.hazards = hazards;
    this.hazardCells = hazardCells;
    seen = new boolean[hazards.length];
    portCells = new int[ports.length];
    for (int i = 0; i < ports.length; i++) {
      portCells[i] = ports[i].index();
    }
    peaks = new double[ports.length];
  }

  void beginScan() {
    for (int i = 0; i < seen.length; i++) {
      seen[i] = false;
    }
    for (int i = 0; i < peaks.length; i++) {
      peaks[i] = 0;
    }
  }

  /** After every plant step. */
  void judge(long[] cells) {
    for (int i = 0; i < hazards.length; i++) {
      seen[i] |= hazards[i].truth(cells);
    }
    for (int i = 0; i < portCells.length; i++) {
      double value = Double.longBitsToDouble(cells[portCells[i]]);
      if (Math.abs(value) > Math.abs(peaks[i])) {
        peaks[i] = value;
      }
    }
  }

  /** At the end of a scan's steps: shows what was seen. */
  void show(long[] cells) {
    for (int i = 0; i < hazardCells.length; i++) {
      cells[hazardCells[i]] = seen[i] ? 1 : 0;
    }
    for (int i = 0; i < portCells.length; i++) {
      cells[portCells[i]] = Double.doubleToLongBits(peaks[i]);
    }
  }
}
