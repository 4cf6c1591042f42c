package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** Current of a line or transformer, and the heat of its conductors where that is watched. */
final class LinePart implements Part {
  private final Circuit circuit;
  private final int branch;
  private final Conductor conductor; // null when not watched
  private final int[] amperes = new int[3];
  private final int earth;
  private int damaged = -1;
  private int broken = -1;
  private int heat = -1;

  LinePart(Circuit circuit, String name, int branch, Conductor conductor) {
    this.circuit = circuit;
    this.branch = branch;
    this.conductor = conductor;
    Ports ports = circuit.ports;
    String head = "line." + name;
    for (int p = 0; p < 3; p++) {
      String phase = "abc".substring(p, p + 1);
      amperes[p] =
          ports.quantity(head + ".amperes_" + phase, "A", "Current of phase " + phase + ", rms");
    }
    earth = ports.quantity(head + ".amperes_n", "A", "Sum of the phases, fundamental");
    if (conductor != null) {
      heat = ports.quantity(head + ".heat", "", "Share of what damages its conductor");
      damaged = ports.contact(head + ".damaged", "Its conductor was too hot");
      broken = ports.contact(head + ".broken", "A conductor has melted");
    }
  }

  @Override
  public void after() {
    if (conductor != null) {
      conductor.step(circuit.angle, circuit.seconds);
    }
    show();
  }

  @Override
  public void show() {
    Ports ports = circuit.ports;
    Network network = circuit.network;
    if (conductor != null) {
      ports.set(heat, conductor.share());
      ports.set(damaged, conductor.damaged());
      ports.set(broken, conductor.broken());
    }
    if (!circuit.renewed) {
      return;
    }
    double re = 0;
    double im = 0;
    for (int p = 0; p < 3; p++) {
      int at = Phasors.VECTOR * branch + 2 * p;
      re += network.flow[at];
      im += network.flow[at + 1];
      double square =
          Phasors.square(network.flow, at) + network.spectrum().currentSquares(branch, p);
      ports.set(amperes[p], Math.sqrt(square));
    }
    ports.set(earth, Math.sqrt(re * re + im * im));
  }

  @Override
  public boolean idle() {
    return conductor == null || conductor.idle();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    if (conductor != null) {
      conductor.save(to);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    if (conductor != null) {
      conductor.restore(from);
    }
  }
}
