package bufferstop.plant;

import bufferstop.model.Symbol;
import bufferstop.st.Expression;
import java.util.ArrayList;
import java.util.List;

/**
 * Judges the hazards in every plant step, so that none hides between two scans: a hazard that was
 * true in any step of a scan shows TRUE in that scan, and every port that feeds one shows its worst
 * value, see {@link Peak}.
 */
final class HazardWatch {
  private final Expression[] hazards;
  private final int[] hazardCells;
  private final boolean[] seen;
  private final Peak[] peaks;

  /**
   * @param ports LREAL plant ports that a hazard reads
   */
  HazardWatch(Expression[] hazards, int[] hazardCells, Symbol[] ports) {
    this.hazards = hazards;
    this.hazardCells = hazardCells;
    seen = new boolean[hazards.length];
    List<Nearness> comparisons = new ArrayList<>();
    for (Expression hazard : hazards) {
      Nearness.collect(hazard, comparisons);
    }
    peaks = new Peak[ports.length];
    for (int i = 0; i < ports.length; i++) {
      peaks[i] = new Peak(ports[i], comparisons);
    }
  }

  void beginScan(long[] cells) {
    for (int i = 0; i < seen.length; i++) {
      seen[i] = false;
    }
    for (Peak peak : peaks) {
      peak.begin(cells);
    }
  }

  /** After every plant step. */
  void judge(long[] cells) {
    for (int i = 0; i < hazards.length; i++) {
      seen[i] |= hazards[i].truth(cells);
    }
    for (Peak peak : peaks) {
      peak.observe(cells);
    }
  }

  /** At the end of a scan's steps: shows what was seen. */
  void show(long[] cells) {
    for (int i = 0; i < hazardCells.length; i++) {
      cells[hazardCells[i]] = seen[i] ? 1 : 0;
    }
    for (Peak peak : peaks) {
      peak.show(cells);
    }
  }
}
