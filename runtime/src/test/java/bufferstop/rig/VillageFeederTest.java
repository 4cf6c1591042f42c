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
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The village feeder with its protection, as the commands load it. */
class VillageFeederTest {
  private static final Path SCENARIOS = Path.of("..", "configs", "village-feeder", "scenarios");
  private static final Project VILLAGE = BrickworksTest.project("village-feeder");

  @TempDir Path folder;

  static List<Path> scenarios() throws IOException {
    try (Stream<Path> files = Files.list(SCENARIOS)) {
      return files.filter(f -> f.toString().endsWith(".yaml")).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("scenarios")
  void passesEveryScenario(Path file) {
    ScenarioResult result = BrickworksTest.run(VILLAGE, BrickworksTest.scenario(file));
    assertEquals(
        Verdict.PASSED, result.verdict(), () -> result.expectations() + " " + result.notes());
  }

  /** A scenario with other settings of the plant, and what it fails for. */
  private ScenarioResult with(String scenario, String settings) throws IOException {
    String text = Files.readString(SCENARIOS.resolve(scenario));
    String changed =
        text.replaceFirst("\nwith:.*", "")
            .replaceFirst("\ndo:", "\nwith: {net: " + settings + "}\ndo:");
    return BrickworksTest.run(VILLAGE, Workbench.scenario(folder, changed));
  }

  @ParameterizedTest(name = "{0}: {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      value = {
        "04-permanent-fault.yaml | {relays: {r1: {time_overcurrent: {multiplier: 9}}}}"
            + " | always net.breaker.b0.contact_a",
        "02-self-clearing-fault.yaml | {relays: {r1: {reclosing: {dead_time_1: 0.05}}}}"
            + " | always net.relay.r1.trips <= 1",
        "16-cold-load.yaml | {loads: {houses: {pick_up_build: 5}}, relays: {r1: {time_overcurrent:"
            + " {pick_up: 1.5}}}}"
            + " | never net.relay.r1.tripping OR net.relay.r0.tripping",
        "06-fuse-is-spared.yaml | {relays: {r1: {instantaneous: {pick_up: 30}}}}"
            + " | never net.fuse.f_mill.blown",
        "09-wet-branch.yaml | {relays: {r1: {earth_time_overcurrent: {pick_up: 3}}}}"
            + " | eventually net.relay.r1.cause = 1051 within T#8s",
        "22-earth-fault-relay-dead.yaml | {relays: {r0: {earth_time_overcurrent: {pick_up: 5}}}}"
            + " | eventually NOT net.breaker.b0.contact_a within T#12s"
      })
  void findsAWrongSetting(String scenario, String settings, String expectation) throws IOException {
    ScenarioResult result = with(scenario, settings);
    assertEquals(Verdict.FAILED, result.verdict());
    assertTrue(
        result.expectations().stream()
            .filter(e -> e.verdict() == Verdict.FAILED)
            .map(ExpectationResult::text)
            .anyMatch(expectation::equals),
        () -> "" + result.expectations());
  }

  @Test
  void sameSeedGivesTheSameTrace() {
    Path drawn = SCENARIOS.resolve("21-drawn-fault.yaml");
    String one = BrickworksTest.run(VILLAGE, BrickworksTest.scenario(drawn)).traceSha256();
    String two = BrickworksTest.run(VILLAGE, BrickworksTest.scenario(drawn)).traceSha256();
    assertEquals(one, two);
  }
}
