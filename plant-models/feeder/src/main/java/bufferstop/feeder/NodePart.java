package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;

/** Voltage of a node. */
final class NodePart implements Part {
  private final Circuit circuit;
  private final int node;
  private final int[] volts = new int[3];

  NodePart(Circuit circuit, String name, int node) {
    this.circuit = circuit;
    this.node = node;
    for (int p = 0; p < 3; p++) {
      String phase = "abc".substring(p, p + 1);
      volts[p] =
          circuit.ports.quantity(
              "node." + name + ".volts_" + phase, "V", "Phase " + phase + " to the return, rms");
    }
  }

  @Override
  public void after() {
    show();
  }

  @Override
  public void show() {
    if (circuit.renewed) {
      for (int p = 0; p < 3; p++) {
        circuit.ports.set(volts[p], circuit.network.volts(node, p));
      }
    }
  }

  @Override
  public boolean idle() {
    return true;
  }

  @Override
  public void save(DataOutput to) {
    // it keeps nothing
  }

  @Override
  public void restore(DataInput from) {
    // it keeps nothing
  }
}
