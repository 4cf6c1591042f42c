package bufferstop.feeder;

import bufferstop.spi.PlantFault;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A relay with its ports and faults. */
final class RelayPart implements Part {
  private final Circuit circuit;
  private final Relay relay;
  private final int enabled;
  private final int reset;
  private final int[] amperes = new int[4];
  private final int volts;
  private final int hertz;
  private final int started;
  private final int tripping;
  private final int ready;
  private final int inProgress;
  private final int lockout;
  private final int latched;
  private final int circuitAlarm;
  private final int alive;
  private final int state;
  private final int shot;
  private final int cause;
  private final int lastAmperes;
  private final int trips;
  private final int recloses;
  private double[] in; // of the step at work

  RelayPart(Circuit circuit, Relay relay) {
    this.circuit = circuit;
    this.relay = relay;
    Ports ports = circuit.ports;
    String head = "relay." + relay.name;
    enabled = ports.command(head + ".reclosing", "Automatic reclosing is switched on", true);
    reset = ports.command(head + ".reset", "Resets lockout relay and cause, at its edge", false);
    for (int p = 0; p < 4; p++) {
      String phase = "abcn".substring(p, p + 1);
      amperes[p] =
          ports.quantity(head + ".amperes_" + phase, "A", "Measured, as a primary current");
    }
    volts = ports.quantity(head + ".volts", "V", "Lowest phase to neutral measured, primary");
    hertz = ports.quantity(head + ".hertz", "Hz", "Frequency measured");
    started = ports.contact(head + ".started", "An element has picked up");
    tripping = ports.contact(head + ".tripping", "It gives a trip");
    ready = ports.contact(head + ".ready", "79: ready");
    inProgress = ports.contact(head + ".in_progress", "79: a reclosing sequence runs");
    lockout = ports.contact(head + ".lockout", "79: locked out");
    latched = ports.contact(head + ".latched", "86: latched, closing is blocked");
    circuitAlarm = ports.contact(head + ".trip_circuit_alarm", "74TC: the trip circuit is broken");
    alive = ports.contact(head + ".alive", "It has its supply");
    state = ports.quantity(head + ".state", "", "79: 0 ready to 5 lockout, see the plant's page");
    shot = ports.quantity(head + ".shot", "", "79: attempts made in this sequence");
    cause = ports.quantity(head + ".cause", "", "Function that tripped last; 0 after a reset");
    lastAmperes = ports.quantity(head + ".trip_amperes", "A", "Primary current at the last trip");
    trips = ports.quantity(head + ".trips", "", "How often it has tripped");
    recloses = ports.quantity(head + ".recloses", "", "How often it has reclosed");
    faults(head);
  }

  private void faults(String head) {
    circuit.fault(head + ".dead", "the relay has no supply", (on, x) -> relay.die(on));
    circuit.fault(
        head + ".trip_contact_open",
        "the trip contact or its wire is broken",
        (on, x) -> relay.breakContact(on));
    circuit.fault(
        new PlantFault(head + ".ct_open", "phase", 1, 3, "this current transformer is open"),
        (on, x) -> each(on, x, CurrentTransformer::breakOpen));
    circuit.fault(
        new PlantFault(head + ".ct_reversed", "phase", 1, 3, "this one's leads are exchanged"),
        (on, x) -> each(on, x, CurrentTransformer::turn));
    circuit.fault(
        new PlantFault(head + ".ct_remanence", "", -1, 1, "flux left in all, share of their limit"),
        (on, x) -> {
          for (int p = 0; p < 3; p++) {
            relay.seen.ct(p).leaveFlux(on ? x : 0);
          }
          relay.disturb();
        });
    circuit.fault(
        head + ".vt_open",
        "the voltage transformers' fuses are gone",
        (on, x) -> {
          relay.seen.loseVolts(on);
          relay.disturb();
        });
  }

  private interface Change {
    void set(CurrentTransformer ct, boolean on);
  }

  private void each(boolean on, double phase, Change change) {
    for (int p = 0; p < 3; p++) {
      change.set(relay.seen.ct(p), on && Math.round(phase) == p + 1);
    }
    relay.disturb();
  }

  /** Turns the measurement's window on through a steady state. */
  void tick() {
    relay.seen.tick(circuit.network, circuit.angle, circuit.seconds, circuit.source.hertz());
  }

  @Override
  public void before(double[] in) {
    this.in = in;
  }

  @Override
  public void after() {
    boolean changed =
        relay.seen.step(
            circuit.network,
            circuit.angle,
            circuit.seconds,
            circuit.source.hertz(),
            circuit.changed);
    relay.step(circuit.micros, changed, in[enabled] != 0, in[reset] != 0);
    show();
  }

  @Override
  public void show() {
    Ports ports = circuit.ports;
    Measurement seen = relay.seen;
    boolean dead = relay.isDead();
    for (int p = 0; p < 4; p++) {
      ports.set(amperes[p], dead ? 0 : seen.current(p) * seen.currentRatio);
    }
    ports.set(volts, dead ? 0 : seen.lowestVolts() * seen.voltageRatio);
    ports.set(hertz, seen.hertz());
    ports.set(started, relay.started() && !dead);
    ports.set(tripping, relay.tripping() && !dead);
    Reclosing.State now = relay.reclosing.state();
    boolean out = now == Reclosing.State.LOCKOUT;
    ports.set(ready, now == Reclosing.State.READY && !dead);
    ports.set(inProgress, now != Reclosing.State.READY && !out && !dead);
    ports.set(lockout, out);
    ports.set(latched, relay.latched());
    ports.set(circuitAlarm, relay.circuitAlarm());
    ports.set(alive, !dead);
    ports.set(state, now.ordinal());
    ports.set(shot, relay.reclosing.shot());
    ports.set(cause, relay.cause());
    ports.set(lastAmperes, relay.lastAmperes());
    ports.set(trips, relay.trips());
    ports.set(recloses, relay.reclosing.recloses());
  }

  @Override
  public boolean idle() {
    return relay.isIdle() && relay.seen.isFresh();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    relay.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    relay.restore(from);
  }
}
