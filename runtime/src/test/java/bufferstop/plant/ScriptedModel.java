package bufferstop.plant;

import bufferstop.spi.EventSink;
import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** A plant model that does what a test tells it. */
public final class ScriptedModel implements PlantModel {

  /** What the plant does; called for time zero and then for every step. */
  public interface Script {
    void step(Instance now);
  }

  /** The state a script may use. */
  public static final class Instance implements Plant {
    public long step; // 0 at the start
    public double[] in;
    public double[] out;
    public final double[] amounts; // of each fault, 0 while it does not hold
    public final RandomStream random;
    public EventSink events;
    private final ScriptedModel model;

    private Instance(ScriptedModel model, RandomStream random) {
      this.model = model;
      this.random = random;
      in = new double[model.inputs.size()];
      amounts = new double[model.faults.size()];
    }

    @Override
    public List<Port> inputs() {
      return model.inputs;
    }

    @Override
    public List<Port> outputs() {
      return model.outputs;
    }

    @Override
    public List<PlantFault> faults() {
      return model.faults;
    }

    @Override
    public List<PlantEvent> events() {
      return model.events;
    }

    @Override
    public void reportTo(EventSink sink) {
      events = sink;
    }

    @Override
    public void start(double[] first) {
      out = first;
      model.script.step(this);
    }

    @Override
    public void step(long stepMicros, double[] given, double[] result) {
      step++;
      in = given;
      out = result;
      model.script.step(this);
    }

    @Override
    public void fault(int fault, boolean active, double amount) {
      if (active && amount == REFUSED) {
        throw new IllegalStateException("no such amount");
      }
      amounts[fault] = active ? amount : 0;
    }

    @Override
    public void save(DataOutput to) throws IOException {
      to.writeLong(step);
      for (double amount : amounts) {
        to.writeDouble(amount);
      }
    }

    @Override
    public void restore(DataInput from) throws IOException {
      step = from.readLong();
      for (int i = 0; i < amounts.length; i++) {
        amounts[i] = from.readDouble();
      }
    }
  }

  /** An amount at which every fault throws. */
  public static final double REFUSED = 13;

  private final String name;
  private final Script script;
  private final List<Port> inputs = new ArrayList<>();
  private final List<Port> outputs = new ArrayList<>();
  private final List<PlantFault> faults = new ArrayList<>();
  private final List<PlantEvent> events = new ArrayList<>();

  public ScriptedModel(String name, Script script) {
    this.name = name;
    this.script = script;
  }

  /** A BOOL output `x` that is TRUE in the given steps. */
  public static ScriptedModel pulse(String name, long from, long to) {
    return new ScriptedModel(name, p -> p.out[0] = p.step >= from && p.step <= to ? 1 : 0)
        .output(Port.contact("x", "TRUE in some steps"));
  }

  public ScriptedModel input(Port port) {
    inputs.add(port);
    return this;
  }

  public ScriptedModel output(Port port) {
    outputs.add(port);
    return this;
  }

  public ScriptedModel fault(PlantFault fault) {
    faults.add(fault);
    return this;
  }

  public ScriptedModel event(PlantEvent event) {
    events.add(event);
    return this;
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public List<Parameter> schema() {
    return List.of();
  }

  @Override
  public Plant open(Settings settings, Problems problems, RandomStream random) {
    return new Instance(this, random);
  }

  /** A plant that needs no settings. */
  Plant plant() {
    return new Instance(this, () -> 0);
  }
}
