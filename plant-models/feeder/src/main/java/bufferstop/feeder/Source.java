package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * What feeds the network: a grid, stiff but for its impedance and for what faults do to it, or a
 * generating set.
 */
final class Source {
  private final double phaseVolts;
  private final double nominalHertz;
  final GeneratingSet set; // null when it is a grid
  private boolean lost;
  private double dipTo = 1;
  private double offHertz;

  Source(double lineVolts, double nominalHertz, GeneratingSet set) {
    phaseVolts = lineVolts / Math.sqrt(3);
    this.nominalHertz = nominalHertz;
    this.set = set;
  }

  /** Fault: the grid is gone. */
  void lose(boolean lost) {
    this.lost = lost;
  }

  /** Fault: the grid's voltage is this share of nominal. */
  void dipTo(double share) {
    dipTo = share;
  }

  /** Fault: the grid's frequency is off by this, Hz. */
  void shift(double hertz) {
    offHertz = hertz;
  }

  boolean connected() {
    return set == null ? !lost : set.connected();
  }

  /** Inner voltage, phase to neutral. */
  double emfVolts() {
    return phaseVolts * (set == null ? dipTo : set.emf());
  }

  double hertz() {
    return set == null ? nominalHertz + offHertz : nominalHertz * set.speed();
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(lost);
    to.writeDouble(dipTo);
    to.writeDouble(offHertz);
    if (set != null) {
      set.save(to);
    }
  }

  void restore(DataInput from) throws IOException {
    lost = from.readBoolean();
    dipTo = from.readDouble();
    offHertz = from.readDouble();
    if (set != null) {
      set.restore(from);
    }
  }
}
