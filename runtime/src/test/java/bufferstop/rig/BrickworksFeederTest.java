package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Project;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The brickworks on power from its feeder, as the commands load it. */
class BrickworksFeederTest {
  private static final Path SCENARIOS = Path.of("..", "configs", "brickworks-feeder", "scenarios");
  private static final Project WORKS = BrickworksTest.project("brickworks-feeder");

  @TempDir Path folder;

  static List<Path> scenarios() throws IOException {
    try (Stream<Path> files = Files.list(SCENARIOS)) {
      return files.filter(f -> f.toString().endsWith(".yaml")).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("scenarios")
  void passesEveryScenario(Path file) {
    ScenarioResult result = BrickworksTest.run(WORKS, BrickworksTest.scenario(file));
    assertEquals(
        Verdict.PASSED, result.verdict(), () -> result.expectations() + " " + result.notes());
    assertTrue(
        result.expectations().stream().anyMatch(e -> e.text().equals("never hazards.struck_wall")),
        "asks that no wall is struck");
  }

  /** A dead time shorter than an arc needs to go out: the same scenario says so. */
  @Test
  void findsADeadTimeThatIsTooShort() throws IOException {
    String text = Files.readString(SCENARIOS.resolve("02-self-clearing-fault.yaml"));
    String wrong =
        text.replaceFirst(
            "\ndo:", "\nwith: {works: {relays: {r_yard: {reclosing: {dead_time_1: 0.1}}}}}\ndo:");
    ScenarioResult result = BrickworksTest.run(WORKS, Workbench.scenario(folder, wrong));
    assertEquals(Verdict.FAILED, result.verdict());
    assertTrue(
        result.expectations().stream()
            .filter(e -> e.verdict() == Verdict.FAILED)
            .map(ExpectationResult::text)
            .anyMatch(t -> t.contains("works.relay.r_yard.trips <= 1")),
        () -> "" + result.expectations());
  }
}
