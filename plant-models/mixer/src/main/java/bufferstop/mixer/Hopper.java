package bufferstop.mixer;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** The weigh hopper, its gate and its load cell. */
final class Hopper {
  final Valve gate;
  private final double capacityKg;
  private final double rangeKg;
  private final double flow;
  private final double lagSeconds;
  private double massKg;
  private double shownKg;

  Hopper(Settings with) {
    gate = new Valve(with);
    capacityKg = with.number("capacity");
    rangeKg = with.number("range");
    flow = with.number("flow");
    lagSeconds = with.number("lag");
  }

  /** Takes what comes from the silos; returns what goes over its edge, in kg. */
  double fill(double kg) {
    double spilled = Math.max(0, massKg + kg - capacityKg);
    massKg += kg - spilled;
    return spilled;
  }

  /** Returns what goes into the vessel in this step, in kg. */
  double step(double seconds, boolean open) {
    double leaves = Math.min(massKg, flow * gate.step(seconds, open) * seconds);
    massKg -= leaves;
    shownKg += Lag.share(seconds, lagSeconds) * (massKg - shownKg);
    return leaves;
  }

  double massKg() {
    return massKg;
  }

  double amperes() {
    return Transmitter.amperes(shownKg / rangeKg);
  }

  void save(DataOutput to) throws IOException {
    gate.save(to);
    to.writeDouble(massKg);
    to.writeDouble(shownKg);
  }

  void restore(DataInput from) throws IOException {
    gate.restore(from);
    massKg = from.readDouble();
    shownKg = from.readDouble();
  }
}
