package bufferstop.mixer;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** One ingredient: its stock, its valve, and what is still falling when the valve has closed. */
final class Silo {
  final String name;
  final Valve valve;
  private final double flow;
  private final double fallSeconds;
  private double stockKg;
  private double fallingKg;
  private double dosedKg;
  private boolean bridged;

  Silo(String name, Settings with) {
    this.name = name;
    valve = new Valve(with);
    flow = with.number("flow");
    fallSeconds = with.number("fall");
    stockKg = with.number("stock");
  }

  /** Fault: the ingredient holds itself up over the open valve. */
  void bridge(boolean bridged) {
    this.bridged = bridged;
  }

  /** Returns what reaches the hopper in this step, in kg. */
  double step(double seconds, boolean open) {
    double opening = valve.step(seconds, open);
    double leaves = bridged ? 0 : Math.min(stockKg, flow * opening * seconds);
    stockKg -= leaves;
    double steady = leaves / seconds * fallSeconds; // what falls when as much arrives as leaves
    double before = fallingKg;
    fallingKg += Lag.share(seconds, fallSeconds) * (steady - before);
    double arrives = Math.max(0, before + leaves - fallingKg);
    dosedKg += arrives;
    return arrives;
  }

  double stockKg() {
    return stockKg;
  }

  double fallingKg() {
    return fallingKg;
  }

  double dosedKg() {
    return dosedKg;
  }

  void save(DataOutput to) throws IOException {
    valve.save(to);
    to.writeDouble(stockKg);
    to.writeDouble(fallingKg);
    to.writeDouble(dosedKg);
    to.writeBoolean(bridged);
  }

  void restore(DataInput from) throws IOException {
    valve.restore(from);
    stockKg = from.readDouble();
    fallingKg = from.readDouble();
    dosedKg = from.readDouble();
    bridged = from.readBoolean();
  }
}
