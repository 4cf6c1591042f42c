package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.spi.Port;
import bufferstop.spi.Settings;
import bufferstop.testkit.ProblemList;
import bufferstop.testkit.SettingsOf;
import bufferstop.testkit.SplitMix64;
import java.util.ArrayList;
import java.util.List;

/** One plant driven by port names; starts on making. */
final class Bench {
  private static final RailwayModel MODEL = new RailwayModel();

  final RailwayPlant plant;
  final Train train;
  final List<String> happened = new ArrayList<>();
  private final List<String> inputs;
  private final List<String> outputs;
  private final double[] in;
  private final double[] out;
  private final long stepMicros;

  Bench(String settings, long stepMicros) {
    this(settings, stepMicros, 1);
  }

  Bench(String settings, long stepMicros, long seed) {
    this.stepMicros = stepMicros;
    Settings read = SettingsOf.text(MODEL.schema(), settings);
    ProblemList problems = new ProblemList();
    plant = (RailwayPlant) MODEL.open(read, problems, new SplitMix64(seed));
    assertEquals(List.of(), problems.all());
    train = plant.line().train;
    inputs = plant.inputs().stream().map(Port::name).toList();
    outputs = plant.outputs().stream().map(Port::name).toList();
    in = new double[inputs.size()];
    out = new double[outputs.size()];
    for (int i = 0; i < in.length; i++) {
      double unwired = plant.inputs().get(i).unwired();
      in[i] = Double.isNaN(unwired) ? 0 : unwired;
    }
    plant.reportTo((event, value) -> happened.add(plant.events().get(event).name()));
    plant.start(out);
  }

  Bench set(String input, double value) {
    in[inputs.indexOf(input)] = value;
    return this;
  }

  Bench fault(String name, boolean active, double amount) {
    List<String> names = plant.faults().stream().map(f -> f.name()).toList();
    plant.fault(names.indexOf(name), active, amount);
    return this;
  }

  double get(String output) {
    return out[outputs.indexOf(output)];
  }

  Bench step() {
    plant.step(stepMicros, in, out);
    return this;
  }

  Bench run(double seconds) {
    long steps = Math.round(seconds * 1e6 / stepMicros);
    for (long i = 0; i < steps; i++) {
      step();
    }
    return this;
  }

  /** Steps until an output has a value; returns the seconds that took. */
  double until(String output, double value) {
    for (long i = 1; i * stepMicros < 60_000_000; i++) {
      if (step().get(output) == value) {
        return i * stepMicros * 1e-6;
      }
    }
    throw new AssertionError(output + " was not " + value + " within 60 s");
  }

  /** Gives a vehicle a speed, and the wheels too when it is the locomotive. */
  Bench push(int vehicle, double speed) {
    train.setBodySpeed(vehicle, speed);
    train.wheel = train.v[train.loco];
    return this;
  }

  /** Momentum of bodies and rotor in N s. */
  double momentum() {
    double sum = rotorKg() * train.wheel;
    for (int i = 0; i < train.count; i++) {
      sum += train.massKg(i) * train.v[i];
    }
    return sum;
  }

  /** Energy of motion of the bodies alone in J. */
  double bodyJoules() {
    double sum = 0;
    for (int i = 0; i < train.count; i++) {
      sum += train.massKg(i) * train.v[i] * train.v[i] / 2;
    }
    return sum;
  }

  /** Energy of motion in J, the rotor's included. */
  double joules() {
    return bodyJoules() + rotorKg() * train.wheel * train.wheel / 2;
  }

  private double rotorKg() {
    return plant.line().data.loco().motor().addedKg();
  }
}
