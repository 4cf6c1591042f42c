package bufferstop.railway;

import bufferstop.railway.LineData.UncouplerData;

/**
 * An uncoupler in the track. While raised it parts a coupler that stands above it and is not in
 * tension, and keeps one from coupling there (reference 5.4, project choice).
 */
final class Uncoupler {
  private final UncouplerData data; // null when the line has none
  private final Train train;
  private final Happenings happenings;
  private boolean raised;
  private boolean jammed;

  Uncoupler(UncouplerData data, Train train, Happenings happenings) {
    this.data = data;
    this.train = train;
    this.happenings = happenings;
  }

  void lift(boolean lifted) {
    raised = lifted && !jammed;
  }

  /** Fault: it does not rise. */
  void jam(boolean jammed) {
    this.jammed = jammed;
  }

  boolean jammed() {
    return jammed;
  }

  boolean holdsOpen(int coupler) {
    return raised
        && Math.abs(train.couplerPlace(coupler) - data.positionMetres()) <= data.toleranceMetres();
  }

  void act(Forces forces) {
    if (!raised) {
      return;
    }
    for (int i = 0; i < train.count - 1; i++) {
      if (train.link[i] == Train.COUPLED && !forces.inTension(i) && holdsOpen(i)) {
        train.link[i] = Train.TOUCHING;
        happenings.parted(train.couplerPlace(i));
      }
    }
  }
}
