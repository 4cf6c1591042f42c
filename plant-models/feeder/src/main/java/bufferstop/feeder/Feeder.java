package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;

/** All parts of one feeder and their common step. */
final class Feeder {
  final Circuit circuit;
  private final SourcePart source;
  private final Part[] parts;
  private final LoadPart[] loads;
  private final RelayPart[] relays;
  private final MeterPart[] meters;
  private final Balance balance;
  private final Draws draws;
  private final int[] contacts; // inputs that are BOOL
  private final boolean[] held; // what they were
  private boolean quiet;

  Feeder(
      Circuit circuit,
      SourcePart source,
      List<Part> parts,
      List<LoadPart> loads,
      List<RelayPart> relays,
      List<MeterPart> meters,
      Balance balance,
      Draws draws) {
    this.circuit = circuit;
    this.source = source;
    this.parts = parts.toArray(Part[]::new);
    this.loads = loads.toArray(LoadPart[]::new);
    this.relays = relays.toArray(RelayPart[]::new);
    this.meters = meters.toArray(MeterPart[]::new);
    this.balance = balance;
    this.draws = draws;
    var inputs = circuit.ports.inputs();
    contacts =
        java.util.stream.IntStream.range(0, inputs.size())
            .filter(i -> inputs.get(i).bool())
            .toArray();
    held = new boolean[contacts.length];
  }

  /** Values at time zero: the network as it is with everything at rest. */
  void start() {
    circuit.changed = true;
    circuit.renewed = true;
    source.settle();
    for (Part part : parts) {
      part.show();
    }
  }

  /**
   * One step. While nothing moves anywhere and nothing is asked for, only clocks go on.
   *
   * @param nowMicros time at the end of the step
   */
  void step(long micros, long nowMicros, double[] in) {
    circuit.micros = micros;
    circuit.seconds = micros * 1e-6;
    circuit.nowMicros = nowMicros;
    boolean disturbed = circuit.takeDisturbed();
    boolean asked = isAsked(in);
    if (quiet && !disturbed && !asked) {
      pass();
      return;
    }
    for (int i = 0; i < parts.length; i++) {
      parts[i].before(in);
    }
    circuit.changed = circuit.network.update(circuit.angle, circuit.seconds) || nowMicros == micros;
    boolean halfCycle = circuit.network.refreshSpectrum(circuit.seconds);
    circuit.renewed = halfCycle || circuit.changed && circuit.network.switched();
    circuit.renewed |= nowMicros == micros;
    circuit.changed |= halfCycle;
    circuit.angle.advance(circuit.source.hertz(), circuit.seconds);
    circuit.network.fade();
    boolean still = true;
    for (int i = 0; i < parts.length; i++) {
      parts[i].after();
    }
    for (int i = 0; i < parts.length && still; i++) {
      still = parts[i].idle();
    }
    quiet = still && !circuit.network.isUnsolved() && !circuit.network.hasDc();
  }

  private void pass() {
    circuit.angle.advance(circuit.source.hertz(), circuit.seconds);
    for (int i = 0; i < relays.length; i++) {
      relays[i].tick();
    }
    for (int i = 0; i < meters.length; i++) {
      meters[i].tick();
    }
    balance.tick();
  }

  private boolean isAsked(double[] in) {
    boolean asked = false;
    for (int i = 0; i < contacts.length; i++) {
      boolean now = in[contacts[i]] != 0;
      asked |= now != held[i];
      held[i] = now;
    }
    for (int i = 0; i < loads.length && !asked; i++) {
      asked = loads[i].asks(in);
    }
    return asked;
  }

  void save(DataOutput to) throws IOException {
    draws.save(to);
    circuit.angle.save(to);
    to.writeBoolean(quiet);
    for (boolean each : held) {
      to.writeBoolean(each);
    }
    for (Part part : parts) {
      part.save(to);
    }
    circuit.network.save(to);
    double[] values = circuit.ports.values();
    for (int i = 0; i < circuit.ports.outputs().size(); i++) {
      to.writeDouble(values[i]);
    }
  }

  void restore(DataInput from) throws IOException {
    draws.restore(from);
    circuit.angle.restore(from);
    quiet = from.readBoolean();
    for (int i = 0; i < held.length; i++) {
      held[i] = from.readBoolean();
    }
    for (Part part : parts) {
      part.restore(from);
    }
    circuit.network.restore(from);
    double[] values = circuit.ports.values();
    for (int i = 0; i < circuit.ports.outputs().size(); i++) {
      values[i] = from.readDouble();
    }
  }
}
