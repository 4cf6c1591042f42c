package bufferstop.model;

import java.util.List;

/**
 * Something declared to outlive a run: a point, the instance of a block, a trip, an alarm. All of
 * its cells come back, or none.
 *
 * @param name as declared, an alarm's with its head
 * @param type what its cells mean; what was kept fits only where this is the same
 * @param cells in the order in which they are kept
 * @param limits the point whose range a value must be in; null when there is none
 */
public record Retained(String name, String type, List<Cell> cells, Point limits) {

  /**
   * One of its cells.
   *
   * @param index in the image
   * @param moment whether it holds a time by the controller's clock, which a start sets back to 0
   */
  public record Cell(int index, boolean moment) {}

  /** Whether one of its cells is a moment. */
  public boolean hasMoments() {
    return cells.stream().anyMatch(Cell::moment);
  }
}
