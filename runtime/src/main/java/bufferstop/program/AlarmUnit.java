package bufferstop.program;

import bufferstop.st.Expression;

/**
 * One alarm: normal, unacknowledged, acknowledged, returned to normal unacknowledged. Source:
 * ISA-18.2 alarm state-transition diagram, states A to D [from memory, not re-read].
 */
final class AlarmUnit {
  private final Expression when;
  private final long delayMicros;
  private final boolean needsAcknowledge;
  private final int activeCell;
  private final int unacknowledgedCell;
  private final OnDelay delay = new OnDelay();

  AlarmUnit(
      Expression when,
      long delayMicros,
      boolean needsAcknowledge,
      int activeCell,
      int unacknowledgedCell) {
    this.when = when;
    this.delayMicros = delayMicros;
    this.needsAcknowledge = needsAcknowledge;
    this.activeCell = activeCell;
    this.unacknowledgedCell = unacknowledgedCell;
  }

  /** One evaluation; {@code acknowledged} is TRUE in the scan of a fresh acknowledgement. */
  void step(long[] cells, long nowMicros, boolean acknowledged) {
    boolean active = delay.step(when.truth(cells), delayMicros, nowMicros);
    boolean raised = active && cells[activeCell] == 0;
    boolean waiting = !acknowledged && cells[unacknowledgedCell] != 0;
    boolean keeps = needsAcknowledge ? waiting : waiting && active;
    cells[activeCell] = active ? 1 : 0;
    cells[unacknowledgedCell] = raised || keeps ? 1 : 0;
  }

  boolean isActive(long[] cells) {
    return cells[activeCell] != 0;
  }

  boolean isUnacknowledged(long[] cells) {
    return cells[unacknowledgedCell] != 0;
  }
}
