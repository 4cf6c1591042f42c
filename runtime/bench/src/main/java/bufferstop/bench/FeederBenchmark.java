package bufferstop.bench;

import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import bufferstop.testkit.Opened;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.ServiceLoader;

/**
 * Steps of the feeder plant, in times real time at 1 ms: at rest, under a load that moves in every
 * step, and together with the railway whose current it feeds. The baseline of each is the least a
 * step can do: as many ports copied as the plant has.
 */
final class FeederBenchmark implements Benchmark {
  private static final long STEP = 1000;
  private static final double NANOS_PER_STEP = 1e6; // of real time
  private static final int PORT_COPIES = 1;

  /** One plant and its ports. */
  private static final class Driven {
    final Plant plant;
    final double[] in;
    final double[] out;

    Driven(String model, String settings) {
      PlantModel found =
          ServiceLoader.load(PlantModel.class).stream()
              .map(ServiceLoader.Provider::get)
              .filter(m -> m.name().equals(model))
              .findFirst()
              .orElseThrow();
      plant = Opened.of(found, settings).plant();
      in =
          plant.inputs().stream()
              .mapToDouble(p -> Double.isNaN(p.unwired()) ? 0 : p.unwired())
              .toArray();
      out = new double[plant.outputs().size()];
      plant.start(out);
    }

    int input(String name) {
      return plant.inputs().stream().map(Port::name).toList().indexOf(name);
    }

    int output(String name) {
      return plant.outputs().stream().map(Port::name).toList().indexOf(name);
    }

    void step() {
      plant.step(STEP, in, out);
    }
  }

  /** What is done in one step; what it returns keeps the work alive. */
  private interface Work {
    double step(int n);
  }

  @Override
  public List<Row> run(Path top, boolean brief) throws IOException {
    int steps = brief ? 20_000 : 2_000_000;
    List<Row> rows = new ArrayList<>();
    Driven quiet = new Driven("feeder", FeederSettings.WORKS);
    rows.add(row("feeder at rest", quiet, times(steps, n -> rest(quiet))));
    Driven moving = new Driven("feeder", FeederSettings.WORKS);
    int drawn = moving.input("load.tramway.dc_amperes");
    rows.add(
        row(
            "feeder, a load moves in every step",
            moving,
            times(
                steps / 4,
                n -> {
                  moving.in[drawn] = 0.1 + 0.2 * (n % 1000) / 1000;
                  return rest(moving);
                })));
    Driven feeder = new Driven("feeder", FeederSettings.WORKS);
    Driven railway =
        new Driven("railway", Files.readString(top.resolve("configs/brickworks/line.yaml")));
    rows.add(
        row("feeder and railway, a train to and fro", feeder, together(steps, feeder, railway)));
    return rows;
  }

  private static double rest(Driven driven) {
    driven.step();
    return driven.out[0];
  }

  /** The railway draws its current from the feeder and sees its voltage. */
  private static double together(int steps, Driven feeder, Driven railway) {
    int drawn = feeder.input("load.tramway.dc_amperes");
    int given = feeder.output("load.tramway.dc_volts");
    int volts = railway.input("feed.volts");
    int close = railway.input("feed.close");
    int reverse = railway.input("feed.reverse");
    int current = railway.output("feed.current");
    return times(
        steps,
        n -> {
          int phase = n / 1000 % 12; // seconds: 4 to the pit, 2 coasting, 4 back, 2 coasting
          railway.in[close] = phase % 6 < 4 ? 1 : 0;
          railway.in[reverse] = phase < 6 ? 1 : 0;
          railway.in[volts] = feeder.out[given];
          feeder.in[drawn] = railway.out[current];
          feeder.step();
          railway.step();
          return railway.out[current];
        });
  }

  /** Nanoseconds of processor time a step, the best of three runs. */
  private static double times(int steps, Work work) {
    ThreadMXBean thread = ManagementFactory.getThreadMXBean();
    double best = Double.POSITIVE_INFINITY;
    double kept = 0;
    for (int run = 0; run < 3; run++) {
      long start = thread.getCurrentThreadCpuTime();
      for (int n = 0; n < steps; n++) {
        kept += work.step(n);
      }
      best = Math.min(best, (thread.getCurrentThreadCpuTime() - start) / (double) steps);
    }
    if (Double.isNaN(kept)) {
      throw new IllegalStateException("a plant gave no number");
    }
    return best;
  }

  private static Row row(String name, Driven driven, double nanos) {
    double[] from = driven.out.clone();
    double[] to = new double[from.length];
    double copy =
        times(
            1_000_000,
            n -> {
              from[n % from.length] = n;
              System.arraycopy(from, 0, to, 0, from.length);
              return to[PORT_COPIES];
            });
    return new Row(
        name, NANOS_PER_STEP / nanos, "x real", "its ports copied", NANOS_PER_STEP / copy);
  }
}
