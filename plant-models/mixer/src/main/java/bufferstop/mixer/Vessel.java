package bufferstop.mixer;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** The vessel with its jacket, its agitator and its discharge. */
final class Vessel {
  final Valve discharge;
  final Heating heating;
  final Agitator agitator;
  private final double capacityKg;
  private final double highKg;
  private final double emptyKg;
  private final double flow;
  private double massKg;
  private double deliveredKg;

  Vessel(Settings with, Heating heating, Agitator agitator) {
    this.heating = heating;
    this.agitator = agitator;
    discharge = new Valve(with);
    capacityKg = with.number("capacity");
    highKg = with.number("high");
    emptyKg = with.number("empty");
    flow = with.number("flow");
    massKg = with.number("start");
  }

  /** Takes what comes from the hopper; returns what goes over its edge, in kg. */
  double fill(double kg) {
    double spilled = Math.max(0, massKg + kg - capacityKg);
    double taken = kg - spilled;
    if (taken > 0) {
      heating.mix(massKg, taken);
      agitator.dilute(massKg, taken);
      massKg += taken;
    }
    return spilled;
  }

  void step(double seconds, boolean open, boolean run, double heat) {
    double leaves = Math.min(massKg, flow * discharge.step(seconds, open) * seconds);
    massKg -= leaves;
    deliveredKg += leaves;
    agitator.step(seconds, run);
    heating.step(seconds, massKg, heat);
  }

  double massKg() {
    return massKg;
  }

  double deliveredKg() {
    return deliveredKg;
  }

  boolean isHigh() {
    return massKg >= highKg;
  }

  boolean isEmpty() {
    return massKg < emptyKg;
  }

  void save(DataOutput to) throws IOException {
    discharge.save(to);
    heating.save(to);
    agitator.save(to);
    to.writeDouble(massKg);
    to.writeDouble(deliveredKg);
  }

  void restore(DataInput from) throws IOException {
    discharge.restore(from);
    heating.restore(from);
    agitator.restore(from);
    massKg = from.readDouble();
    deliveredKg = from.readDouble();
  }
}
