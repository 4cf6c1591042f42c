package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * The network's energy: what the source gives, and what is lost in the resistances of source, lines
 * and transformers, R times the square of each current, harmonics included. Both are worked out
 * apart from each other and from the meters, so that they can be compared. Looks whenever meters
 * do.
 */
final class Balance implements Part {
  private static final double PER_HOUR = 3.6e9; // microjoules a watt hour

  private final Circuit circuit;
  private final int lossWatts;
  private final int supplied;
  private final int lost;
  private final long windowMicros;
  private double sourceNow;
  private double lossNow;
  private long pending;
  private long suppliedMicrojoules;
  private long lostMicrojoules;

  Balance(Circuit circuit) {
    this.circuit = circuit;
    windowMicros = Math.round((circuit.nominalHertz > 55 ? 12 : 10) * 1e6 / circuit.nominalHertz);
    Ports ports = circuit.ports;
    supplied = ports.quantity("source.supplied", "Wh", "Energy its inner voltage has given");
    lossWatts = ports.quantity("network.losses", "W", "Lost in all resistances");
    lost = ports.quantity("network.lost", "Wh", "Energy lost in all resistances");
  }

  /** A step in which nothing has changed. */
  void tick() {
    pending += circuit.micros;
    if (pending >= windowMicros) {
      flush();
      show();
    }
  }

  private void flush() {
    suppliedMicrojoules += Math.round(sourceNow * pending);
    lostMicrojoules += Math.round(lossNow * pending);
    pending = 0;
  }

  @Override
  public void after() {
    if (circuit.renewed) {
      flush();
      look();
    }
    tick();
  }

  private void look() {
    Network network = circuit.network;
    sourceNow = network.sourceWatts();
    lossNow = 0;
    Spectrum spectrum = network.spectrum();
    for (int branch = 1; branch < network.tree.size(); branch++) {
      lossNow += loss(network.tree, branch, network.flow);
      for (int k = 0; k < spectrum.count(); k++) {
        lossNow += loss(network.tree, branch, spectrum.flow(k));
      }
    }
  }

  /** R of the phases times the squares of their currents, and that of the return. */
  private static double loss(Tree tree, int branch, double[] flow) {
    int at = Phasors.VECTOR * branch;
    double squares = 0;
    double re = 0;
    double im = 0;
    for (int p = 0; p < 3; p++) {
      squares += Phasors.square(flow, at + 2 * p);
      re += flow[at + 2 * p];
      im += flow[at + 2 * p + 1];
    }
    Tree.Branch own = tree.branch(branch);
    return own.ohms() * squares + own.returnOhms() * (re * re + im * im);
  }

  @Override
  public void show() {
    Ports ports = circuit.ports;
    ports.set(supplied, suppliedMicrojoules / PER_HOUR);
    ports.set(lossWatts, lossNow);
    ports.set(lost, lostMicrojoules / PER_HOUR);
  }

  @Override
  public boolean idle() {
    return true;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(sourceNow);
    to.writeDouble(lossNow);
    to.writeLong(pending);
    to.writeLong(suppliedMicrojoules);
    to.writeLong(lostMicrojoules);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    sourceNow = from.readDouble();
    lossNow = from.readDouble();
    pending = from.readLong();
    suppliedMicrojoules = from.readLong();
    lostMicrojoules = from.readLong();
  }
}
