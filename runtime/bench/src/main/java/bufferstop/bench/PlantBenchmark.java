package bufferstop.bench;

import bufferstop.load.ProjectLoader;
import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.VirtualRig;
import bufferstop.scenario.ScenarioRun;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Closed loops: the brickworks beside a loop written by hand for that one rig, and a railway alone
 * with ever more vehicles and sensors.
 */
final class PlantBenchmark implements Benchmark {
  private static final double NANOS_PER_SECOND = 1e9;
  private static final double NANOS_PER_MICRO = 1e3;
  private static final int SCANS = 19_000; // three hauls, 190 s

  @Override
  public List<Row> run(Path top, boolean brief) throws Exception {
    List<Row> rows = new ArrayList<>();
    closedLoop(top, brief ? 2 : 15, rows);
    for (int vehicles : brief ? new int[] {10, 20} : new int[] {25, 50, 100, 200}) {
      rows.add(scaled(vehicles, brief ? 500 : 8000));
    }
    return rows;
  }

  private static void closedLoop(Path top, int runs, List<Row> rows) {
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = PlantCatalog.find(List.of(), problems);
    Path folder = top.resolve("configs/brickworks");
    Project project = ProjectLoader.read(folder, problems);
    Scenario scenario =
        ScenarioLoader.read(folder.resolve("scenarios/01-three-loads.yaml"), null, problems).get(0);
    List<Double> product = new ArrayList<>();
    List<Double> byHand = new ArrayList<>();
    double sum = 0;
    for (int i = 0; i < runs; i++) {
      VirtualRig rig = VirtualRig.build(project, plants, scenario, problems);
      ScenarioRun run = ScenarioRun.link(scenario, rig, problems);
      long start = System.nanoTime();
      run.run();
      long middle = System.nanoTime();
      HandWrittenTramway tramway = new HandWrittenTramway();
      sum += tramway.run(SCANS) + tramway.tubSpeed();
      long end = System.nanoTime();
      product.add((middle - start) / NANOS_PER_MICRO / SCANS);
      byHand.add((end - middle) / NANOS_PER_MICRO / SCANS);
    }
    double scan = settled(product);
    String baseline = sum == -1 ? "" : "hand-written Java loop";
    rows.add(
        new Row("brickworks, a scan and ten plant steps", scan, "us", baseline, settled(byHand)));
    rows.add(Row.alone("brickworks, times real time", 10_000 / scan, "x"));
  }

  /** Median of the second half: the first is warm-up. */
  private static double settled(List<Double> values) {
    double[] late =
        values.subList(values.size() / 2, values.size()).stream()
            .mapToDouble(Double::doubleValue)
            .toArray();
    Arrays.sort(late);
    return late[late.length / 2];
  }

  /** A railway of so many vehicles in trains of ten on a ring, five sensors a vehicle. */
  private static Row scaled(int vehicles, int scans) throws IOException {
    Path folder = Files.createTempDirectory("bufferstop-bench");
    try {
      Files.writeString(folder.resolve("line.yaml"), line(vehicles));
      Files.writeString(
          folder.resolve("project.yaml"),
          """
          project: Ring
          scan: T#10ms
          plant_step: T#1ms
          panel:
            on: {element: push_button, contact: normally_closed}
            off: {element: push_button}
          plants:
            line: {model: railway, with: line.yaml}
          wiring:
            - {from: panel.on, to: line.feed.close, name: close}
            - {from: panel.off, to: line.feed.reverse, name: reverse}
          """);
      Files.writeString(
          folder.resolve("run.yaml"),
          "scenario: Run\nfor: T#" + scans / 100 + "s\nexpect:\n  - always: TRUE\n");
      return measured(folder, vehicles, scans);
    } finally {
      for (String file : List.of("line.yaml", "project.yaml", "run.yaml")) {
        Files.deleteIfExists(folder.resolve(file));
      }
      Files.delete(folder);
    }
  }

  private static Row measured(Path folder, int vehicles, int scans) {
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = PlantCatalog.find(List.of(), problems);
    Project project = ProjectLoader.read(folder, problems);
    Scenario scenario = ScenarioLoader.read(folder.resolve("run.yaml"), null, problems).get(0);
    List<Double> times = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      VirtualRig rig = VirtualRig.build(project, plants, scenario, problems);
      if (rig == null) {
        throw new IllegalStateException(problems.sorted().toString());
      }
      ScenarioRun run = ScenarioRun.link(scenario, rig, problems);
      long start = System.nanoTime();
      run.run();
      times.add((System.nanoTime() - start) / NANOS_PER_SECOND * 1e6 / (scans * 10.0));
    }
    String name =
        String.format(
            Locale.ROOT, "%d vehicles, %d sensors, a step over vehicles", vehicles, 5 * vehicles);
    return Row.alone(name, settled(times) / vehicles, "us");
  }

  private static String line(int vehicles) {
    int trains = Math.max(1, vehicles / 10);
    double length = 4.0 * trains;
    StringBuilder text = new StringBuilder();
    text.append("segments:\n");
    for (int i = 0; i < trains; i++) {
      text.append("  s").append(i).append(": {from: ").append(4 * i).append(", length: 4}\n");
    }
    text.append("joints:\n");
    for (int i = 0; i < trains; i++) {
      text.append("  - {from: s%d.high, to: s%d.low}\n".formatted(i, (i + 1) % trains));
    }
    text.append("feeds: {feed: {volts: 12}}\ncoupling: {gap: 0.01}\nlocomotives:\n");
    for (int i = 0; i < trains; i++) {
      text.append(
          """
            l%d:
              length: 0.2
              mass: 0.8
              segment: s%d
              start: %s
              adhesion: 0.4
              motor: {resistance: 20, constant: 0.0103, gear: 14, wheel_radius: 0.0055, friction_torque: 6e-4, rotor_inertia: 5e-7}
          """
              .formatted(i, i, 4 * i + 3));
    }
    text.append("wagons:\n");
    for (int i = 0; i < trains; i++) {
      text.append("  w%d: {length: 0.12, tare: 0.1, behind: l%d, count: 9}\n".formatted(i, i));
    }
    text.append("beams:\n");
    for (int i = 0; i < 5 * vehicles; i++) {
      double at = (i + 0.5) * length / (5 * vehicles);
      int segment = Math.min(trains - 1, (int) (at / 4));
      double inside = Math.max(4 * segment + 0.01, Math.min(4 * segment + 3.99, at));
      text.append("  b%d: {segment: s%d, position: %.4f}\n".formatted(i, segment, inside));
    }
    return text.toString();
  }
}
