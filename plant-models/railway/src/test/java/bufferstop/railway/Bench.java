package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.spi.Plant;
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
  final Stock stock;
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
    Plant opened = MODEL.open(read, problems, new SplitMix64(seed));
    assertEquals(List.of(), problems.all());
    plant = (RailwayPlant) opened;
    stock = plant.line().stock;
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

  /** Distance post of the middle of the vehicle at a place. */
  double post(int place) {
    Placement placement = plant.line().placement;
    placement.locate(stock.who[place], 0);
    return placement.track.post(placement.foundSegment(), placement.foundOffset());
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

  /** Gives the body at a place a speed, and the wheels too. */
  Bench push(int place, double speed) {
    stock.setBodySpeed(stock.row(place), place, speed);
    for (Drive drive : plant.line().drives) {
      drive.wheel = stock.v[stock.at[drive.vehicle]];
    }
    return this;
  }

  /** Momentum of bodies and rotors in N s, all in one row. */
  double momentum() {
    double sum = 0;
    for (Drive drive : plant.line().drives) {
      sum += drive.rotorKg() * drive.wheel;
    }
    for (int k = 0; k < stock.count; k++) {
      sum += stock.kg(k) * stock.v[k];
    }
    return sum;
  }

  /** Energy of motion of the bodies alone in J. */
  double bodyJoules() {
    double sum = 0;
    for (int k = 0; k < stock.count; k++) {
      sum += stock.kg(k) * stock.v[k] * stock.v[k] / 2;
    }
    return sum;
  }

  /** Energy of motion in J, that of the rotors included. */
  double joules() {
    double sum = bodyJoules();
    for (Drive drive : plant.line().drives) {
      sum += drive.rotorKg() * drive.wheel * drive.wheel / 2;
    }
    return sum;
  }
}
