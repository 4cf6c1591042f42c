package bufferstop.feeder;

import bufferstop.spi.PlantFault;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** The source with its ports: a grid that faults can lower, or a generating set. */
final class SourcePart implements Part {
  private static final int SETTLING = 30;

  /** So long it must stand still before it counts as settled; longer than it swings. */
  private static final long STEADY_MICROS = 2_000_000;

  /** Voltage and speed that change by a smaller share in a step stand still. */
  private static final double SETTLED = 1e-8;

  private final Circuit circuit;
  private final Source source;
  private final GeneratingSet set;
  private final int node;
  private final int hertz;
  private final int watts;
  private final int vars;
  private int start = -1;
  private int stop = -1;
  private int reset = -1;
  private int running = -1;
  private int cause = -1;
  private final int[] trips = new int[GeneratingSet.Cause.values().length];
  private boolean startHeld;
  private boolean stopHeld;
  private boolean resetHeld;
  private long steadyMicros;
  private double lastEmf;
  private double lastSpeed;

  /**
   * @param node that the source feeds
   */
  SourcePart(Circuit circuit, int node) {
    this.circuit = circuit;
    this.node = node;
    source = circuit.source;
    set = source.set;
    Ports ports = circuit.ports;
    hertz = ports.quantity("source.hertz", "Hz", "Frequency");
    watts = ports.quantity("source.watts", "W", "Power of its inner voltage");
    vars = ports.quantity("source.vars", "var", "Reactive power of its inner voltage");
    if (set == null) {
      grid();
    } else {
      generator(ports);
    }
  }

  private void grid() {
    circuit.fault("source.lost", "the grid is gone", (on, x) -> source.lose(on));
    circuit.fault(
        new PlantFault("source.dip", "", 0, 1, "the grid's voltage is this share of nominal"),
        (on, x) -> source.dipTo(on ? x : 1));
    circuit.fault(
        new PlantFault(
            "source.off_frequency", "Hz", -10, 10, "the grid's frequency is off by this"),
        (on, x) -> source.shift(on ? x : 0));
  }

  private void generator(Ports ports) {
    start = ports.command("source.start", "Starts the generating set, at its edge", false);
    stop = ports.command("source.stop", "Stops the generating set, at its edge", false);
    reset = ports.command("source.reset", "Resets its trip, at its edge", false);
    running = ports.contact("source.running", "At speed, its breaker closed");
    cause = ports.quantity("source.cause", "", "What tripped it, as a function number; 0 nothing");
    for (GeneratingSet.Cause each : GeneratingSet.Cause.values()) {
      if (each != GeneratingSet.Cause.NONE) {
        trips[each.ordinal()] =
            circuit.happenings.declare(
                "source." + each.name().toLowerCase(java.util.Locale.ROOT), "", each.text);
      }
    }
    circuit.fault(
        "source.engine_fails",
        "the engine gives no torque",
        (on, x) -> {
          set.failEngine(on);
          steadyMicros = 0;
        });
  }

  /** At time zero: a generating set has been carrying its load for long. */
  void settle() {
    Network network = circuit.network;
    network.connectSource(source.connected());
    network.setEmf(source.emfVolts());
    network.update(circuit.angle, 0);
    for (int i = 0; set != null && i < SETTLING; i++) {
      set.scaleEmf(1 / terminalShare(network));
      network.setEmf(source.emfVolts());
      network.update(circuit.angle, 0);
    }
    if (set != null) {
      set.settle(network.sourceWatts(), network.sourceVars());
    }
  }

  @Override
  public void before(double[] in) {
    if (set != null) {
      if (in[reset] != 0 && !resetHeld) {
        set.reset();
      }
      if (in[stop] != 0 && !stopHeld) {
        set.stop();
      }
      if (in[start] != 0 && !startHeld) {
        set.start();
      }
      if (in[reset] != 0 || in[stop] != 0 || in[start] != 0) {
        steadyMicros = 0;
      }
      resetHeld = in[reset] != 0;
      stopHeld = in[stop] != 0;
      startHeld = in[start] != 0;
    }
    circuit.network.connectSource(source.connected());
    circuit.network.setEmf(source.emfVolts());
  }

  @Override
  public void after() {
    Network network = circuit.network;
    double p = network.sourceWatts();
    double q = network.sourceVars();
    if (set != null && (!isSettled() || circuit.changed)) {
      GeneratingSet.Cause tripped = set.step(circuit.seconds, p, q, terminalShare(network));
      if (tripped != GeneratingSet.Cause.NONE) {
        circuit.happenings.happened(trips[tripped.ordinal()], set.valueOf(tripped));
      }
    }
    double emf = source.emfVolts();
    double speed = source.hertz();
    boolean stands =
        Math.abs(emf - lastEmf) <= SETTLED * emf
            && Math.abs(speed - lastSpeed) <= SETTLED * circuit.nominalHertz;
    steadyMicros = stands ? steadyMicros + circuit.micros : 0;
    lastEmf = emf;
    lastSpeed = speed;
    show();
  }

  @Override
  public void show() {
    Ports ports = circuit.ports;
    ports.set(hertz, source.connected() || set != null ? source.hertz() : 0);
    ports.set(watts, circuit.network.sourceWatts());
    ports.set(vars, circuit.network.sourceVars());
    if (set != null) {
      ports.set(running, set.connected());
      ports.set(cause, set.cause().number);
    }
  }

  private double terminalShare(Network network) {
    double sum = 0;
    for (int k = 0; k < 3; k++) {
      sum += Phasors.size(network.v, Phasors.VECTOR * node + 2 * k);
    }
    return sum / Math.sqrt(3) / network.tree.nominalVolts(node);
  }

  /** It has stood still for long; it is left alone until the network changes. */
  private boolean isSettled() {
    return steadyMicros >= STEADY_MICROS && !set.counts();
  }

  @Override
  public boolean idle() {
    return set == null || isSettled();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    source.save(to);
    to.writeBoolean(startHeld);
    to.writeBoolean(stopHeld);
    to.writeBoolean(resetHeld);
    to.writeLong(steadyMicros);
    to.writeDouble(lastEmf);
    to.writeDouble(lastSpeed);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    source.restore(from);
    startHeld = from.readBoolean();
    stopHeld = from.readBoolean();
    resetHeld = from.readBoolean();
    steadyMicros = from.readLong();
    lastEmf = from.readDouble();
    lastSpeed = from.readDouble();
  }
}
