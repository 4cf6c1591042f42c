package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.load.ProjectLoader;
import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.Type;
import bufferstop.plant.PlantCatalog;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.ScenarioRun;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The brickworks tramway and its naive twin, as the commands load them. */
class BrickworksTest {
  private static final Path CONFIGS = Path.of("..", "configs");
  private static final Path SCENARIOS = CONFIGS.resolve("brickworks").resolve("scenarios");
  private static final PlantCatalog CATALOG = PlantCatalog.find(List.of(), new Diagnostics());
  private static final Project CAREFUL = project("brickworks");
  private static final Project NAIVE = project("brickworks-naive");
  private static final Pattern IMPACT =
      Pattern.compile("line\\.shed_end\\.impact_speed = ([0-9.]+) m/s");

  @TempDir Path folder;

  static Project project(String name) {
    Diagnostics problems = new Diagnostics();
    Project project = ProjectLoader.read(CONFIGS.resolve(name), problems);
    assertEquals(List.of(), problems.sorted());
    return project;
  }

  static Scenario scenario(Path file) {
    Diagnostics problems = new Diagnostics();
    Scenario scenario = ScenarioLoader.read(file, problems);
    assertEquals(List.of(), problems.sorted());
    return scenario;
  }

  static List<Path> scenarios() throws IOException {
    try (Stream<Path> files = Files.list(SCENARIOS)) {
      return files.filter(f -> f.toString().endsWith(".yaml")).sorted().toList();
    }
  }

  /** Runs it as the command would; expectations that name what is not there are inconclusive. */
  static ScenarioResult run(Project project, Scenario scenario) {
    Diagnostics problems = new Diagnostics();
    VirtualRig rig = VirtualRig.build(project, CATALOG, scenario, problems);
    assertNotNull(rig, () -> "" + problems.sorted());
    ScenarioRun run = ScenarioRun.link(scenario, rig, problems);
    assertTrue(!problems.hasErrors(), () -> scenario.file() + ": " + problems.sorted());
    return run.run();
  }

  @ParameterizedTest
  @MethodSource("scenarios")
  void passesEveryScenario(Path file) {
    ScenarioResult result = run(CAREFUL, scenario(file));
    assertEquals(
        Verdict.PASSED, result.verdict(), () -> result.expectations() + " " + result.notes());
    for (ExpectationResult expectation : result.expectations()) {
      assertTrue(
          expectation.margin() == null || expectation.margin() >= 0,
          () -> expectation.text() + ": " + expectation.margin());
    }
    assertTrue(
        result.expectations().stream().anyMatch(e -> e.text().equals("never hazards.struck_wall")),
        "asks that no wall is struck");
  }

  /**
   * The shed's buffer stands 0.80 m behind its beam and 0.41 m behind its overrun reed; a train
   * that coasts from either stops between 0.10 m, which the scenarios ask for, and 1 m from it.
   */
  @Test
  void keepsItsDistanceFromTheShedEnd() {
    for (String file : List.of("01-three-loads.yaml", "02-shed-beam-open.yaml")) {
      List<ExpectationResult> gaps =
          run(CAREFUL, scenario(SCENARIOS.resolve(file))).expectations().stream()
              .filter(e -> e.text().startsWith("always line.shed_end.gap >= 0.10"))
              .toList();
      assertEquals(1, gaps.size());
      double margin = gaps.get(0).margin();
      assertTrue(margin >= 0 && margin <= 0.9, () -> "margin " + margin);
      assertEquals("m", gaps.get(0).unit());
    }
  }

  @Test
  void strikesTheWallWithTheNaiveControllerWhenTheShedBeamBreaks() {
    ScenarioResult result = run(NAIVE, scenario(SCENARIOS.resolve("02-shed-beam-open.yaml")));
    assertEquals(Verdict.FAILED, result.verdict());
    ExpectationResult struck =
        result.expectations().stream()
            .filter(e -> e.text().equals("never hazards.struck_wall"))
            .findFirst()
            .orElseThrow();
    assertEquals(Verdict.FAILED, struck.verdict());
    Matcher impact = IMPACT.matcher(String.join("\n", struck.values()));
    assertTrue(impact.find(), () -> "" + struck.values());
    double speed = Double.parseDouble(impact.group(1));
    assertTrue(speed > 0.05, () -> "" + struck.values());
    // the hazard is a speed above 0.05 m/s, so the margin is what the impact was above it; the
    // value is printed with six digits
    assertEquals(0.05 - speed, struck.margin(), 1e-6);
    assertEquals("m/s", struck.unit());
  }

  /** What the sequence alone does not survive: scenario, and the first expectation it fails. */
  private static final String NAIVE_FAILS =
      """
      """;

  @Test
  void failsAStatedSetWithTheNaiveController() throws IOException {
    Map<String, String> failed = new TreeMap<>();
    for (Path file : scenarios()) {
      ScenarioResult result = run(NAIVE, scenario(file));
      result.expectations().stream()
          .filter(e -> e.verdict() == Verdict.FAILED)
          .findFirst()
          .ifPresent(e -> failed.put(nameOf(file), e.text()));
    }
    StringBuilder table = new StringBuilder();
    failed.forEach((file, text) -> table.append(file).append(" | ").append(text).append('\n'));
    assertEquals(NAIVE_FAILS, table.toString());
  }

  private static String nameOf(Path file) {
    return file.getFileName().toString().replace(".yaml", "");
  }

  /** Every way every wire can fail, given by name and the rest of the fault. */
  static List<String> faults() {
    List<String> all = new ArrayList<>();
    for (Field.Wire wire : CAREFUL.field().wires()) {
      String name = wire.name();
      boolean level = name.equals("hopper_level");
      List<String> modes =
          level
              ? List.of(
                  "open",
                  "delay",
                  "stuck",
                  "stuck, value: 0",
                  "stuck, value: 9.5",
                  "drift, value: 0.01",
                  "drift, value: -0.01",
                  "noise, value: 0.5",
                  "wrong_scale, value: -2")
              : List.of(
                  "open",
                  "short",
                  "inverted",
                  "delay",
                  "chatter",
                  "missed",
                  "welded",
                  "not_closing",
                  "stuck",
                  "stuck, value: TRUE",
                  "stuck, value: FALSE");
      modes.forEach(mode -> all.add("wire: " + name + ", mode: " + mode));
    }
    return all;
  }

  @Test
  void hasThirtyFiveWires() {
    List<Field.Wire> wires = CAREFUL.field().wires();
    assertEquals(35, wires.size());
    long levels = CAREFUL.controller().points().stream().filter(p -> p.type() == Type.REAL).count();
    assertEquals(2, levels, "hopper_level and still_level");
  }

  @ParameterizedTest
  @MethodSource("faults")
  void runsOnWhateverAWireDoesDuringAHaul(String fault) {
    String yaml =
        """
        scenario: Any fault
        for: T#32s
        with: {line: {locomotive: {start: 0.78}, wagons: {tub1: {start: 0.60}}}}
        do:
          - {at: T#100ms, write: {reset: TRUE, fill_time: T#1s, tip_time: T#1s}}
          - {when: haul.unlocated.X, write: {start: TRUE}}
          - {when: haul.ready.X, write: {start: TRUE}}
          - {when: haul.to_pit.X, after: T#1s, fault: {%s}}
        expect:
          - always: scan.errors = 0
        """;
    ScenarioResult result = run(CAREFUL, Workbench.scenario(folder, yaml.formatted(fault)));
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result);
    assertEquals(3_201, result.scans());
  }
}
