package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.spi.Port;
import bufferstop.spi.Settings;
import bufferstop.testkit.ProblemList;
import bufferstop.testkit.SettingsOf;
import bufferstop.testkit.SplitMix64;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** One plant driven by port names; starts on making. */
final class Bench {
  private static final FeederModel MODEL = new FeederModel();

  final FeederPlant plant;
  final Network network;

  /** Events as {@code seconds name value}. */
  final List<String> happened = new ArrayList<>();

  private final List<String> inputs;
  private final List<String> outputs;
  private final double[] in;
  private final double[] out;
  private final long stepMicros;
  private long steps;

  Bench(String settings) {
    this(settings, 1000, 1);
  }

  Bench(String settings, long stepMicros, long seed) {
    this.stepMicros = stepMicros;
    Settings read = SettingsOf.text(MODEL.schema(), settings);
    ProblemList problems = new ProblemList();
    plant = (FeederPlant) MODEL.open(read, problems, new SplitMix64(seed));
    assertEquals(List.of(), problems.all());
    network = plant.network();
    inputs = plant.inputs().stream().map(Port::name).toList();
    outputs = plant.outputs().stream().map(Port::name).toList();
    in = plant.inputs().stream().mapToDouble(Port::unwired).toArray();
    out = new double[outputs.size()];
    plant.reportTo(
        (event, value) ->
            happened.add(
                String.format(
                    Locale.ROOT, "%.3f %s %.4g", now(), plant.events().get(event).name(), value)));
    plant.start(out);
  }

  /** Seconds since the start; within a step its end. */
  double now() {
    return steps * stepMicros * 1e-6;
  }

  Bench set(String input, double value) {
    int at = inputs.indexOf(input);
    assertEquals(true, at >= 0, "no input " + input);
    in[at] = value;
    return this;
  }

  Bench fault(String name, boolean active) {
    return fault(name, active, 0);
  }

  Bench fault(String name, boolean active, double amount) {
    List<String> names = plant.faults().stream().map(f -> f.name()).toList();
    assertEquals(true, names.contains(name), "no fault " + name + " in " + names);
    plant.fault(names.indexOf(name), active, amount);
    return this;
  }

  double get(String output) {
    int at = outputs.indexOf(output);
    assertEquals(true, at >= 0, "no output " + output);
    return out[at];
  }

  Bench step() {
    steps++;
    plant.step(stepMicros, in, out);
    return this;
  }

  Bench run(double seconds) {
    long count = Math.round(seconds * 1e6 / stepMicros);
    for (long i = 0; i < count; i++) {
      step();
    }
    return this;
  }

  /** Steps until an output has a value; returns the time. */
  double until(String output, double value) {
    for (long i = 1; i * stepMicros < 400_000_000L; i++) {
      if (step().get(output) == value) {
        return now();
      }
    }
    throw new AssertionError(output + " was not " + value + " within 400 s: " + happened);
  }

  /** Time of the n-th event of a name, counted from 1. */
  double at(String event, int n) {
    List<String> all = happened.stream().filter(h -> h.split(" ")[1].equals(event)).toList();
    assertEquals(true, all.size() >= n, event + " came " + all.size() + " times: " + happened);
    return Double.parseDouble(all.get(n - 1).split(" ")[0]);
  }

  long count(String event) {
    return happened.stream().filter(h -> h.split(" ")[1].equals(event)).count();
  }
}
