package bufferstop.feeder;

import bufferstop.spi.EventSink;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.Port;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;

/** One feeder as the host sees it: order of calls, ports, time, saved state. */
final class FeederPlant implements Plant {
  private final Feeder feeder;
  private final Coordination coordination;
  private final List<Port> inputs;
  private final List<Port> outputs;
  private final List<PlantFault> faults;
  private final List<PlantEvent> events;
  private boolean running;
  private long steps;
  private long stepMicros;

  FeederPlant(Feeder feeder, Coordination coordination) {
    this.feeder = feeder;
    this.coordination = coordination;
    inputs = feeder.circuit.ports.inputs();
    outputs = feeder.circuit.ports.outputs();
    faults = feeder.circuit.faults();
    events = feeder.circuit.happenings.all();
  }

  /** For tests in this package that look at momentary values. */
  Angle angle() {
    return feeder.circuit.angle;
  }

  /** For tests in this package that look at the network. */
  Network network() {
    return feeder.circuit.network;
  }

  @Override
  public List<Port> inputs() {
    return inputs;
  }

  @Override
  public List<Port> outputs() {
    return outputs;
  }

  @Override
  public List<PlantFault> faults() {
    return faults;
  }

  @Override
  public List<PlantEvent> events() {
    return events;
  }

  @Override
  public void reportTo(EventSink sink) {
    refuse(running, "reportTo");
    feeder.circuit.happenings.tell(sink);
  }

  @Override
  public void start(double[] out) {
    refuse(running, "start");
    running = true;
    feeder.start();
    feeder.circuit.ports.write(out);
  }

  @Override
  public void step(long stepMicros, double[] in, double[] out) {
    refuse(!running, "step");
    if (steps == 0) {
      this.stepMicros = stepMicros;
    }
    if (stepMicros != this.stepMicros || stepMicros <= 0) {
      throw new IllegalArgumentException(
          "step of " + stepMicros + " us after steps of " + this.stepMicros + " us");
    }
    steps++;
    feeder.step(stepMicros, steps * stepMicros, in);
    feeder.circuit.ports.write(out);
  }

  @Override
  public void fault(int fault, boolean active, double amount) {
    refuse(!running, "fault");
    feeder.circuit.set(fault, active, amount);
  }

  @Override
  public void save(DataOutput to) throws IOException {
    refuse(!running, "save");
    to.writeLong(steps);
    to.writeLong(stepMicros);
    feeder.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    steps = from.readLong();
    stepMicros = from.readLong();
    feeder.restore(from);
    running = true;
  }

  @Override
  public String picture() {
    refuse(!running, "picture");
    return new TimeCurrentChart(coordination).svg();
  }

  private void refuse(boolean outOfOrder, String method) {
    if (outOfOrder) {
      throw new IllegalStateException(
          method + " called while the plant is " + (running ? "running" : "not started"));
    }
  }
}
