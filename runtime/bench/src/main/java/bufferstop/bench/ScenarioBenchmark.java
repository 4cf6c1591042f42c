package bufferstop.bench;

import bufferstop.load.ProjectLoader;
import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.Batch;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * Many runs of one brickworks scenario on two threads beside one; one virtual hour of hauls with
 * its full trace on disk beside the same without.
 */
final class ScenarioBenchmark implements Benchmark {
  private static final double NANOS_PER_SECOND = 1e9;
  private static final double BYTES_PER_MEGABYTE = 1e6;
  private static final String HOUR =
      """
      scenario: Two hauls, then waiting
      for: T#%dm
      do:
        - {at: T#1s, press: panel.reset}
        - {when: haul.unlocated.X, press: panel.start}
        - {when: haul.ready.X, after: T#1s, times: 2, press: panel.start}
      expect:
        - never: hazards.struck_wall
        - {always: line.shed_end.gap >= 0.05, unit: m}
      """;

  private final Diagnostics problems = new Diagnostics();
  private final PlantCatalog catalog = PlantCatalog.find(List.of(), problems);

  @Override
  public List<Row> run(Path top, boolean brief) throws Exception {
    Project project = ProjectLoader.read(top.resolve("configs/brickworks"), problems);
    Path folder = Files.createTempDirectory("bufferstop-bench");
    try {
      List<Row> rows = new ArrayList<>(many(project, top, folder, brief ? 10 : 1000));
      rows.addAll(hour(project, folder, brief ? 1 : 60));
      return rows;
    } finally {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
  }

  private List<Row> many(Project project, Path top, Path folder, int runs) throws IOException {
    Path original = top.resolve("configs/brickworks/scenarios/02-shed-beam-open.yaml");
    String text = Files.readString(original).replace("for: T#70s", "for: T#70s\nseeds: " + runs);
    List<Scenario> scenarios =
        ScenarioLoader.read(Files.writeString(folder.resolve("many.yaml"), text), null, problems);
    double two = seconds(project, scenarios, 2, null);
    double heap = heap();
    double one = seconds(project, scenarios.subList(0, Math.max(1, runs / 10)), 1, null) * 10;
    return List.of(
        new Row(runs + " runs of 70 s, two threads", two, "s", "one thread", one),
        Row.alone("heap held after them", heap, "MB"));
  }

  private List<Row> hour(Project project, Path folder, int minutes) throws IOException {
    Path file = Files.writeString(folder.resolve("hour.yaml"), HOUR.formatted(minutes));
    List<Scenario> scenarios = ScenarioLoader.read(file, null, problems);
    double plain = seconds(project, scenarios, 1, null);
    double traced = seconds(project, scenarios, 1, folder);
    double heap = heap();
    double size = Files.size(Batch.trace(folder, scenarios.get(0))) / BYTES_PER_MEGABYTE;
    String name = minutes + " virtual minutes, full trace to disk";
    return List.of(
        new Row(name, traced, "s", "trace digested alone", plain),
        Row.alone("its file", size, "MB"),
        Row.alone("heap held after it", heap, "MB"));
  }

  private double seconds(Project project, List<Scenario> scenarios, int threads, Path traces) {
    long start = System.nanoTime();
    new Batch(project, catalog, threads, traces)
        .run(
            scenarios,
            finished -> {
              if (finished.result().verdict() != Verdict.PASSED) {
                throw new IllegalStateException(finished.result().toString());
              }
              return true;
            });
    return (System.nanoTime() - start) / NANOS_PER_SECOND;
  }

  private static double heap() {
    System.gc();
    return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed() / BYTES_PER_MEGABYTE;
  }
}
