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
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The mortar mixer, a controller of some size in Structured Text, as the commands load it. */
class BatchMixerTest {
  private static final Path FOLDER = Path.of("..", "configs", "batch-mixer");
  private static final PlantCatalog CATALOG = PlantCatalog.find(List.of(), new Diagnostics());
  private static final int LEAST_LINES = 300;
  private static final int LEAST_SCENARIOS = 25;

  @TempDir Path folder;

  private static Project project() {
    Diagnostics problems = new Diagnostics();
    Project project = ProjectLoader.read(FOLDER, problems);
    assertEquals(List.of(), problems.sorted());
    return project;
  }

  static List<Path> scenarios() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER.resolve("scenarios"))) {
      return files.filter(f -> f.toString().endsWith(".yaml")).sorted().toList();
    }
  }

  private static ScenarioResult run(Scenario scenario) {
    Diagnostics problems = new Diagnostics();
    VirtualRig rig = VirtualRig.build(project(), CATALOG, scenario, problems);
    assertNotNull(rig, () -> "" + problems.sorted());
    ScenarioRun run = ScenarioRun.link(scenario, rig, problems);
    assertEquals(List.of(), problems.sorted());
    return run.run();
  }

  @Test
  void itsLogicIsOneTextBlockOfSomeSize() {
    long lines = project().controller().logic().value().lines().filter(l -> !l.isBlank()).count();
    assertTrue(lines >= LEAST_LINES, "only " + lines);
  }

  @Test
  void hasItsScenarios() throws IOException {
    assertTrue(scenarios().size() >= LEAST_SCENARIOS, "only " + scenarios());
  }

  @ParameterizedTest
  @MethodSource("scenarios")
  void passesEveryScenario(Path file) {
    Diagnostics problems = new Diagnostics();
    Scenario scenario = ScenarioLoader.read(file, problems);
    assertEquals(List.of(), problems.sorted());
    ScenarioResult result = run(scenario);
    List<ExpectationResult> wrong =
        result.expectations().stream().filter(e -> e.verdict() != Verdict.PASSED).toList();
    assertEquals(Verdict.PASSED, result.verdict(), () -> wrong + " " + result.notes());
  }

  /** Every way a wire of the mixer can fail during a heated batch, given as in a scenario. */
  static List<String> faults() {
    List<String> all = new ArrayList<>();
    for (Field.Wire wire : project().field().wires()) {
      boolean quantity =
          List.of("weight_signal", "temperature_signal", "heat").contains(wire.name());
      List<String> modes =
          quantity
              ? List.of("open", "stuck", "drift, value: 0.0005", "noise, value: 0.002")
              : List.of("open", "short", "inverted", "chatter", "stuck");
      modes.forEach(mode -> all.add("wire: " + wire.name() + ", mode: " + mode));
    }
    return all;
  }

  /** Whatever a wire does: nothing is driven under an open lid, and no expression fails. */
  @ParameterizedTest
  @MethodSource("faults")
  void runsOnWhateverAWireDoesDuringABatch(String fault) {
    String yaml =
        """
        scenario: Any fault
        for: T#75s
        do:
          - {at: T#1s, press: panel.reset}
          - {at: T#2s, write: {recipe: 3}}
          - {at: T#3s, press: panel.start}
          - {at: T#20s, fault: {%s}}
          - {at: T#55s, turn: panel.lid, to: open}
        expect:
          - always: scan.errors = 0
          - never: hazards.driven_with_lid_open
          - always: panel.lid.shut OR mixer.discharge.opened OR NOT discharge_valve
        """;
    ScenarioResult result = run(Workbench.scenario(folder, yaml.formatted(fault)));
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result);
  }
}
