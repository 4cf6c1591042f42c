package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.load.ProjectLoader;
import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
  private static final Pattern IMPACT =
      Pattern.compile("line\\.shed_end\\.impact_speed = ([0-9.]+) m/s");

  @TempDir Path folder;

  private static Workbench bench(String name) {
    return bench(project(name));
  }

  private static Project project(String name) {
    Diagnostics problems = new Diagnostics();
    Project project = ProjectLoader.read(CONFIGS.resolve(name), problems);
    assertEquals(List.of(), problems.sorted());
    return project;
  }

  private static Workbench bench(Project project) {
    Diagnostics problems = new Diagnostics();
    PlantCatalog catalog = PlantCatalog.find(List.of(), problems);
    assertEquals(List.of(), problems.sorted());
    return Workbench.with(project, 1, catalog);
  }

  private static Scenario scenario(Path file) {
    Diagnostics problems = new Diagnostics();
    Scenario scenario = ScenarioLoader.read(file, problems);
    assertEquals(List.of(), problems.sorted());
    return scenario;
  }

  static List<Path> scenarios() throws IOException {
    try (Stream<Path> files = Files.list(SCENARIOS)) {
      return files.sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("scenarios")
  void passesEveryScenario(Path file) {
    ScenarioResult result = bench("brickworks").run(scenario(file));
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result.expectations());
    for (ExpectationResult expectation : result.expectations()) {
      assertTrue(
          expectation.margin() == null || expectation.margin() >= 0,
          () -> expectation.text() + ": " + expectation.margin());
    }
  }

  /**
   * The shed's buffer stands 0.80 m behind its beam and 0.41 m behind its overrun reed; a train
   * that coasts from either stops between 0.10 m, which the scenarios ask for, and 1 m from it.
   */
  @ParameterizedTest
  @MethodSource("scenarios")
  void keepsItsDistanceFromTheShedEnd(Path file) {
    List<ExpectationResult> gaps =
        bench("brickworks").run(scenario(file)).expectations().stream()
            .filter(e -> e.text().startsWith("always line.shed_end.gap >= 0.10"))
            .toList();
    for (ExpectationResult gap : gaps) {
      assertTrue(gap.margin() >= 0 && gap.margin() <= 0.9, () -> "margin " + gap.margin());
      assertEquals("m", gap.unit());
    }
    boolean asks = file.getFileName().toString().matches("0[12].*");
    assertEquals(asks ? 1 : 0, gaps.size());
  }

  @Test
  void strikesTheWallWithTheNaiveControllerWhenTheShedBeamBreaks() {
    ScenarioResult result =
        bench("brickworks-naive").run(naive(SCENARIOS.resolve("02-shed-beam-open.yaml")));
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

  /** The scenario without what the naive controller cannot be asked. */
  private static Scenario naive(Path file) {
    Scenario all = scenario(file);
    return new Scenario(
        all.name(),
        all.file(),
        all.requirement(),
        all.forMicros(),
        all.seed(),
        all.settings(),
        all.stimuli(),
        all.expectations().stream().filter(e -> !e.text().contains("alarms.")).toList(),
        all.position());
  }

  static List<String> faults() {
    List<String> all = new ArrayList<>();
    for (Field.Wire wire : project("brickworks").field().wires()) {
      for (String mode : List.of("open", "short", "inverted", "delay", "chatter", "stuck")) {
        all.add("wire: " + wire.name() + ", mode: " + mode);
      }
      all.add("wire: " + wire.name() + ", mode: stuck, value: TRUE");
      all.add("wire: " + wire.name() + ", mode: stuck, value: FALSE");
    }
    return all;
  }

  @Test
  void hasEighteenWires() {
    assertEquals(18, project("brickworks").field().wires().size());
  }

  @ParameterizedTest
  @MethodSource("faults")
  void runsOnWhateverAWireDoesDuringAHaul(String fault) {
    String yaml =
        """
        scenario: Any fault
        for: T#60s
        do:
          - {at: T#1s, write: {start: TRUE}}
          - {when: haul.to_pit.X, after: T#1s, fault: {%s}}
        expect:
          - always: scan.errors = 0
        """;
    ScenarioResult result =
        bench("brickworks").run(Workbench.scenario(folder, yaml.formatted(fault)));
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result.expectations());
    assertEquals(6_001, result.scans());
  }
}
