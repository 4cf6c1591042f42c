package bufferstop.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Whole processes: {@code check} of the brickworks beside a Java machine that does nothing. */
final class StartBenchmark implements Benchmark {
  private static final double NANOS_PER_SECOND = 1e9;

  /** What an empty process runs. */
  public static final class Nothing {
    private Nothing() {}

    /** Returns at once. */
    public static void main(String[] args) {
      // the baseline is the start of the machine itself
    }
  }

  @Override
  public List<Row> run(Path top, boolean brief) throws Exception {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    List<String> nothing =
        List.of(java, "-cp", System.getProperty("java.class.path"), Nothing.class.getName());
    List<String> check =
        List.of(
            top.resolve("scripts/bufferstop").toString(),
            "check",
            top.resolve("configs/brickworks").toString());
    int runs = brief ? 1 : 11;
    List<Double> checks = new ArrayList<>();
    List<Double> nothings = new ArrayList<>();
    for (int i = 0; i < runs; i++) {
      checks.add(seconds(check));
      nothings.add(seconds(nothing));
    }
    return List.of(
        new Row(
            "check configs/brickworks, whole process",
            median(checks),
            "s",
            "empty Java process",
            median(nothings)));
  }

  private static double seconds(List<String> command) throws IOException, InterruptedException {
    long start = System.nanoTime();
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    int status = process.waitFor();
    if (status != 0) {
      throw new IOException(String.join(" ", command) + " ended with " + status);
    }
    return (System.nanoTime() - start) / NANOS_PER_SECOND;
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).toArray();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }
}
