package bufferstop.railway;

import bufferstop.spi.EventSink;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.PlantPicture;
import bufferstop.spi.Port;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Steps;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** One railway as the host sees it: order of calls, ports, time, saved state. */
final class RailwayPlant implements Plant {
  private final Line line;
  private final Controls controls;
  private final Readings readings = new Readings();
  private final List<Port> outputs;
  private final Faults faults;
  private final History history;
  private final Pulses pulses;
  private final Steps steps = new Steps();

  RailwayPlant(LineData data, RandomStream random) {
    line = new Line(data, random);
    controls = new Controls(data);
    Gauges.addAll(readings, line);
    outputs = readings.seal();
    faults = new Faults(line);
    history = new History(line);
    pulses = new Pulses(line);
  }

  /** For tests in this package that look at momentum and energy. */
  Line line() {
    return line;
  }

  @Override
  public List<Port> inputs() {
    return List.copyOf(controls.ports);
  }

  @Override
  public List<Port> outputs() {
    return outputs;
  }

  @Override
  public List<PlantFault> faults() {
    return List.copyOf(faults.declared);
  }

  @Override
  public List<PlantEvent> events() {
    return Happening.events();
  }

  @Override
  public void reportTo(EventSink sink) {
    steps.requireStopped("reportTo");
    line.happenings.tell(sink);
  }

  @Override
  public void start(double[] out) {
    steps.start();
    line.start();
    readings.write(out);
  }

  @Override
  public void step(long stepMicros, double[] in, double[] out) {
    long nowMicros = steps.step(stepMicros);
    line.step(stepMicros, nowMicros, controls, in);
    history.take(steps.count(), stepMicros);
    readings.write(out);
  }

  @Override
  public void fault(int fault, boolean active, double amount) {
    steps.requireRunning("fault");
    faults.set(fault, active, amount);
  }

  @Override
  public void save(DataOutput to) throws IOException {
    steps.requireRunning("save");
    to.writeLong(steps.count());
    to.writeLong(steps.micros());
    line.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    steps.resume(from.readLong(), from.readLong());
    line.restore(from);
    history.clear();
  }

  @Override
  public String picture() {
    steps.requireRunning("picture");
    return new Plan(line).svg();
  }

  @Override
  public List<PlantPicture> pictures() {
    List<PlantPicture> all = new ArrayList<>();
    all.add(new PlantPicture("", picture()));
    if (history.samples() > 1) {
      all.add(new PlantPicture("train_graph", new TrainGraph(line, history).svg()));
    }
    return all;
  }

  @Override
  public double shortestPulse(int output) {
    return pulses.shortest(outputs.get(output).name());
  }
}
