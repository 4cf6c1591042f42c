package bufferstop.bench;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.SplittableRandom;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.options.Options;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;

/**
 * A scan of a declared controller beside the same logic written in Java by hand, inputs moving in
 * every scan; growth with its size; what loading it takes and what a scan allocates.
 */
public class ScanBenchmark implements Benchmark {
  private static final int COMPARED = 200;
  private static final List<Integer> SIZES = List.of(100, 200, 1_000, 10_000);
  private static final int PATTERNS = 1 << 12;
  private static final long PERIOD = 10_000;
  private static final double NANOS_PER_SECOND = 1e9;

  /** Inputs of many scans, made before. */
  static final class Inputs {
    final boolean[][] bits = new boolean[PATTERNS][ScanProgram.BITS];
    final double[][] reals = new double[PATTERNS][ScanProgram.REALS];

    Inputs() {
      SplittableRandom random = new SplittableRandom(7);
      for (int i = 0; i < PATTERNS; i++) {
        for (int b = 0; b < ScanProgram.BITS; b++) {
          boolean flips = random.nextInt(8) == 0;
          bits[i][b] = i > 0 && bits[i - 1][b] != flips;
        }
        for (int r = 0; r < ScanProgram.REALS; r++) {
          reals[i][r] = random.nextDouble(100);
        }
      }
    }
  }

  /** What one measurement drives. */
  @State(Scope.Thread)
  public static class Bench {
    /** The controller: declared or by hand. */
    @Param({"declared", "by_hand"})
    public String kind;

    /** Its size. */
    @Param({"200"})
    public int rungs;

    private final Inputs inputs = new Inputs();
    private Controller controller;
    private int scan;

    /** Makes the controller. */
    @Setup(Level.Trial)
    public void make() throws IOException {
      ScanProgram program = new ScanProgram(rungs, 1);
      Path folder = Files.createTempDirectory("bench-scan");
      controller =
          kind.equals("declared")
              ? Declared.load(program.project(), rungs, folder)
              : ByHand.compile(program.java(), folder);
    }
  }

  /** One scan with the inputs of the next pattern. */
  @org.openjdk.jmh.annotations.Benchmark
  @BenchmarkMode(Mode.AverageTime)
  @OutputTimeUnit(java.util.concurrent.TimeUnit.NANOSECONDS)
  public static int scan(Bench bench) {
    int pattern = bench.scan & PATTERNS - 1;
    bench.controller.scan(
        bench.inputs.bits[pattern], bench.inputs.reals[pattern], bench.scan * PERIOD);
    bench.scan++;
    return bench.controller.step();
  }

  @Override
  public List<Row> run(Path top, boolean brief) throws Exception {
    List<Row> rows = new ArrayList<>();
    for (int size : SIZES) {
      double declared = nanos("declared", size, brief);
      double byHand = nanos("by_hand", size, brief);
      rows.add(
          new Row(
              "scan of %,d rungs, inputs moving".formatted(size),
              declared,
              "ns",
              "the same in Java",
              byHand));
    }
    rows.add(Row.alone("load, check, compile of 10,000 rungs, cold", loading(10_000), "s"));
    rows.add(
        Row.alone(
            "allocated over a million scans", allocated(brief ? 10_000 : 1_000_000), "bytes"));
    return rows;
  }

  private static double nanos(String kind, int rungs, boolean brief) throws Exception {
    Options options =
        new OptionsBuilder()
            .include(ScanBenchmark.class.getName().replace("$", "\\$") + "\\.scan$")
            .param("kind", kind)
            .param("rungs", Integer.toString(rungs))
            .forks(brief ? 0 : 2)
            .warmupIterations(brief ? 1 : 5)
            .measurementIterations(brief ? 1 : 5)
            .warmupTime(TimeValue.milliseconds(brief ? 200 : 1000))
            .measurementTime(TimeValue.milliseconds(brief ? 200 : 1000))
            .verbosity(org.openjdk.jmh.runner.options.VerboseMode.SILENT)
            .build();
    Collection<RunResult> results = new Runner(options).run();
    return results.iterator().next().getPrimaryResult().getStatistics().getPercentile(50);
  }

  private static double loading(int rungs) throws IOException {
    String project = new ScanProgram(rungs, 1).project();
    Path folder = Files.createTempDirectory("bench-scan");
    long start = System.nanoTime();
    Declared.load(project, rungs, folder);
    return (System.nanoTime() - start) / NANOS_PER_SECOND;
  }

  static double allocated(int scans) throws IOException {
    Controller controller =
        Declared.load(
            new ScanProgram(COMPARED, 1).project(),
            COMPARED,
            Files.createTempDirectory("bench-scan"));
    Inputs inputs = new Inputs();
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    drive(controller, inputs, 20_000);
    long least = Long.MAX_VALUE; // the machine itself allocates a few bytes now and then
    for (int run = 0; run < 3; run++) {
      long before = threads.getCurrentThreadAllocatedBytes();
      drive(controller, inputs, scans);
      least = Math.min(least, threads.getCurrentThreadAllocatedBytes() - before);
    }
    return least;
  }

  private static void drive(Controller controller, Inputs inputs, int scans) {
    for (int i = 0; i < scans; i++) {
      int pattern = i & PATTERNS - 1;
      controller.scan(inputs.bits[pattern], inputs.reals[pattern], i * PERIOD);
    }
  }
}
