package bufferstop.mixer;

import bufferstop.spi.EventSink;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.Port;
import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** One mixer as the host sees it: order of calls, ports, faults, saved state. */
final class Mixer implements Plant {
  private static final double MICROS = 1e6;
  private static final List<PlantEvent> EVENTS =
      List.of(new PlantEvent("spillage_began", "kg/s", "Hopper or vessel ran over"));

  private final List<Silo> silos;
  private final Hopper hopper;
  private final Vessel vessel;
  private EventSink sink = (event, value) -> {};
  private boolean running;
  private long stepMicros;
  private double spilledKg;
  private boolean spilling;

  Mixer(Settings with) {
    silos =
        with.named("ingredients").entrySet().stream()
            .map(e -> new Silo(e.getKey(), e.getValue()))
            .toList();
    hopper = new Hopper(with.item("hopper"));
    vessel =
        new Vessel(
            with.item("vessel"),
            new Heating(with.item("heating")),
            new Agitator(with.item("agitator")));
  }

  @Override
  public List<Port> inputs() {
    List<Port> ports = new ArrayList<>();
    silos.forEach(s -> ports.add(Port.contact("feed." + s.name + ".open", "Valve driven")));
    ports.add(Port.contact("gate.open", "Gate of the hopper driven"));
    ports.add(Port.contact("discharge.open", "Discharge driven"));
    ports.add(Port.contact("agitator.run", "Agitator's motor on"));
    ports.add(Port.quantity("heat", "", "Share of full heat, 0 to 1").orElse(0));
    return ports;
  }

  @Override
  public List<Port> outputs() {
    List<Port> ports = new ArrayList<>();
    for (Silo silo : silos) {
      String feed = "feed." + silo.name;
      ends(ports, feed);
      ports.add(Port.quantity(feed + ".stock", "kg", "Left in the silo"));
      ports.add(Port.quantity(feed + ".dosed", "kg", "Come into the hopper so far"));
    }
    ends(ports, "gate");
    ports.add(Port.quantity("hopper.mass", "kg", "In the hopper"));
    ports.add(Port.quantity("hopper.signal", "A", "Load cell, 4 to 20 mA"));
    ends(ports, "discharge");
    ports.add(Port.quantity("discharge.delivered", "kg", "Discharged so far"));
    ports.add(Port.quantity("vessel.mass", "kg", "In the vessel"));
    ports.add(Port.contact("vessel.high", "Level contact, TRUE when high"));
    ports.add(Port.contact("vessel.empty", "Level contact, TRUE when empty"));
    ports.add(Port.quantity("vessel.temperature", "°C", "Of what is in the vessel"));
    ports.add(Port.quantity("vessel.signal", "A", "Temperature transmitter, 4 to 20 mA"));
    ports.add(Port.quantity("vessel.mixed", "", "1 when evenly mixed"));
    ports.add(Port.quantity("agitator.speed", "rad/s", "Of the shaft"));
    ports.add(Port.contact("agitator.turning", "Speed monitor, from 80 % of full speed"));
    ports.add(Port.quantity("spilled", "kg", "Over the edge of hopper or vessel so far"));
    return ports;
  }

  private static void ends(List<Port> ports, String valve) {
    ports.add(Port.contact(valve + ".opened", "Limit switch, TRUE when fully open"));
    ports.add(Port.contact(valve + ".closed", "Limit switch, TRUE when shut"));
  }

  @Override
  public List<PlantFault> faults() {
    List<PlantFault> faults = new ArrayList<>();
    for (Silo silo : silos) {
      faults.add(fault("bridged_" + silo.name, "The ingredient holds itself up, nothing flows"));
      faults.add(fault("stuck_" + silo.name, "The valve stays where it is"));
    }
    faults.add(fault("stuck_gate", "The hopper's gate stays where it is"));
    faults.add(fault("stuck_discharge", "The discharge stays where it is"));
    faults.add(fault("belt_torn", "The agitator's shaft does not turn"));
    faults.add(fault("heater_dead", "The jacket gives no heat"));
    return faults;
  }

  private static PlantFault fault(String name, String text) {
    return new PlantFault(name, "", 0, 0, text);
  }

  @Override
  public List<PlantEvent> events() {
    return EVENTS;
  }

  @Override
  public void reportTo(EventSink sink) {
    refuse(running, "reportTo");
    this.sink = sink;
  }

  @Override
  public void start(double[] out) {
    refuse(running, "start");
    running = true;
    write(out);
  }

  @Override
  public void step(long stepMicros, double[] in, double[] out) {
    refuse(!running, "step");
    if (this.stepMicros == 0) {
      this.stepMicros = stepMicros;
    }
    if (stepMicros != this.stepMicros || stepMicros <= 0) {
      throw new IllegalArgumentException(
          "step of " + stepMicros + " us after steps of " + this.stepMicros + " us");
    }
    double seconds = stepMicros / MICROS;
    int next = 0;
    double spills = 0;
    for (; next < silos.size(); next++) {
      spills += hopper.fill(silos.get(next).step(seconds, in[next] != 0));
    }
    spills += vessel.fill(hopper.step(seconds, in[next] != 0));
    vessel.step(seconds, in[next + 1] != 0, in[next + 2] != 0, in[next + 3]);
    spill(spills, seconds);
    write(out);
  }

  private void spill(double kg, double seconds) {
    boolean spills = kg > 0;
    if (spills && !spilling) {
      sink.happened(0, kg / seconds);
    }
    spilling = spills;
    spilledKg += kg;
  }

  private void write(double[] out) {
    int next = 0;
    for (int i = 0; i < silos.size(); i++) {
      Silo silo = silos.get(i);
      next = writeEnds(out, next, silo.valve);
      out[next++] = silo.stockKg();
      out[next++] = silo.dosedKg();
    }
    next = writeEnds(out, next, hopper.gate);
    out[next++] = hopper.massKg();
    out[next++] = hopper.amperes();
    next = writeEnds(out, next, vessel.discharge);
    out[next++] = vessel.deliveredKg();
    out[next++] = vessel.massKg();
    out[next++] = vessel.isHigh() ? 1 : 0;
    out[next++] = vessel.isEmpty() ? 1 : 0;
    out[next++] = vessel.heating.temperature();
    out[next++] = vessel.heating.amperes();
    out[next++] = vessel.agitator.mixed();
    out[next++] = vessel.agitator.speed();
    out[next++] = vessel.agitator.isTurning() ? 1 : 0;
    out[next] = spilledKg;
  }

  private static int writeEnds(double[] out, int next, Valve valve) {
    out[next] = valve.isOpened() ? 1 : 0;
    out[next + 1] = valve.isClosed() ? 1 : 0;
    return next + 2;
  }

  @Override
  public void fault(int fault, boolean active, double amount) {
    refuse(!running, "fault");
    int silo = fault / 2;
    if (fault >= 0 && silo < silos.size()) {
      if (fault % 2 == 0) {
        silos.get(silo).bridge(active);
      } else {
        silos.get(silo).valve.stick(active);
      }
      return;
    }
    switch (fault - 2 * silos.size()) {
      case 0 -> hopper.gate.stick(active);
      case 1 -> vessel.discharge.stick(active);
      case 2 -> vessel.agitator.tearBelt(active);
      case 3 -> vessel.heating.kill(active);
      default -> throw new IllegalArgumentException("no fault number " + fault);
    }
  }

  /** For tests of the balance of masses: what is under way between valve and hopper, in kg. */
  double fallingKg() {
    return silos.stream().mapToDouble(Silo::fallingKg).sum();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    refuse(!running, "save");
    to.writeLong(stepMicros);
    for (Silo silo : silos) {
      silo.save(to);
    }
    hopper.save(to);
    vessel.save(to);
    to.writeDouble(spilledKg);
    to.writeBoolean(spilling);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    stepMicros = from.readLong();
    for (Silo silo : silos) {
      silo.restore(from);
    }
    hopper.restore(from);
    vessel.restore(from);
    spilledKg = from.readDouble();
    spilling = from.readBoolean();
    running = true;
  }

  private void refuse(boolean outOfOrder, String method) {
    if (outOfOrder) {
      throw new IllegalStateException(
          method + " called while the plant is " + (running ? "running" : "not started"));
    }
  }
}
