package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Field;
import bufferstop.model.Project;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The projects beside the brickworks: every scenario, every wire broken, a reverser that slips. */
class ProjectsTest {
  private static final Path CONFIGS = Path.of("..", "configs");
  private static final List<String> NAMES =
      List.of("brickworks-ac", "level-crossing", "passing-loop", "pump-station");
  private static final Map<String, Project> PROJECTS = new TreeMap<>();

  @TempDir Path folder;

  private static Project project(String name) {
    return PROJECTS.computeIfAbsent(name, BrickworksTest::project);
  }

  static List<String> scenarios() throws IOException {
    List<String> all = new ArrayList<>();
    for (String name : NAMES) {
      try (Stream<Path> files = Files.list(CONFIGS.resolve(name).resolve("scenarios"))) {
        files
            .filter(f -> f.toString().endsWith(".yaml"))
            .sorted()
            .forEach(f -> all.add(name + "/" + f.getFileName()));
      }
    }
    return all;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("scenarios")
  void passesEveryScenario(String file) {
    String name = file.substring(0, file.indexOf('/'));
    Path path =
        CONFIGS.resolve(name).resolve("scenarios").resolve(file.substring(name.length() + 1));
    ScenarioResult result = BrickworksTest.run(project(name), BrickworksTest.scenario(path));
    assertEquals(
        Verdict.PASSED, result.verdict(), () -> result.expectations() + " " + result.notes());
    for (Field.Hazard hazard : project(name).field().hazards()) {
      assertTrue(
          result.expectations().stream()
              .anyMatch(e -> e.text().equals("never hazards." + hazard.name())),
          "asks for every hazard of the project: " + hazard.name());
    }
  }

  /** Steps of the haul in which the reverser slips, and where it stands when power comes on. */
  static List<String> slips() {
    List<String> all = new ArrayList<>();
    List<String> steps =
        List.of(
            "find",
            "to_pit",
            "turn",
            "to_kiln",
            "kiln_stop",
            "tip",
            "ready",
            "neutral",
            "uncouple",
            "to_shed",
            "in_shed",
            "back",
            "settle");
    for (String step : steps) {
      for (String start : List.of("forward", "neutral_1", "reverse", "neutral_2")) {
        all.add(step + " " + start);
      }
    }
    return all;
  }

  /** Wherever it slips, once or twice in a row: no wall is struck, no clay is spilt. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("slips")
  void survivesAReverserThatLosesItsPlace(String slip) {
    String[] words = slip.split(" ");
    String yaml =
        """
        scenario: The reverser slips
        for: T#100s
        with: {line: {locomotives: {loco: {series_motor: {reverser: {start: %s}}}}}}
        do:
          - {at: T#1s, press: panel.reset}
          - {when: haul.unlocated.X, press: panel.start}
          - {when: haul.ready.X, after: T#1s, press: panel.start}
          - {when: haul.%s.X, after: T#300ms, fault: {plant: line, mode: reverser_slips}}
        expect:
          - never: hazards.struck_wall
          - never: hazards.spilled_clay
          - {when: line_stop.tripped, within: T#100ms, that: NOT k1_closed}
          - always: scan.errors = 0
        """
            .formatted(words[1], words[0]);
    ScenarioResult result =
        BrickworksTest.run(project("brickworks-ac"), Workbench.scenario(folder, yaml));
    for (ExpectationResult expectation : result.expectations()) {
      assertTrue(expectation.verdict() != Verdict.FAILED, () -> expectation + " " + result.notes());
    }
  }

  /** Every wire of both interlockings, broken or bridged in the midst of traffic. */
  static List<String> wires() {
    List<String> all = new ArrayList<>();
    for (String name : List.of("level-crossing", "passing-loop")) {
      for (Field.Wire wire : project(name).field().wires()) {
        all.add(name + " " + wire.name() + " open");
        all.add(name + " " + wire.name() + " short");
      }
    }
    return all;
  }

  /** What a broken or bridged wire may do to the interlockings; everything else is safe. */
  private static final String UNSAFE =
      """
      """;

  private ScenarioResult broken(String name, String wire, String mode) {
    String loop =
        """
        scenario: A wire breaks
        for: T#90s
        do:
          - {at: T#1s, press: panel.reset}
          - {when: exchange.home.X, after: T#2s, press: panel.start}
          - {at: T#8s, fault: {wire: WIRE, mode: MODE}}
        expect:
        """;
    String crossing =
        """
        scenario: A wire breaks
        for: T#2m30s
        do:
          - {at: T#20s, fault: {wire: WIRE, mode: MODE}}
        expect:
        """;
    StringBuilder yaml = new StringBuilder(name.equals("passing-loop") ? loop : crossing);
    for (Field.Hazard hazard : project(name).field().hazards()) {
      yaml.append("  - never: hazards.").append(hazard.name()).append('\n');
    }
    String text = yaml.toString().replace("WIRE", wire).replace("MODE", mode);
    return BrickworksTest.run(project(name), Workbench.scenario(folder, text));
  }

  @Test
  void failsSafeWhicheverWireIsBrokenOrBridged() {
    StringBuilder unsafe = new StringBuilder();
    for (String each : wires()) {
      String[] words = each.split(" ");
      broken(words[0], words[1], words[2]).expectations().stream()
          .filter(e -> e.verdict() == Verdict.FAILED)
          .forEach(e -> unsafe.append(each).append(" | ").append(e.text()).append('\n'));
    }
    assertEquals(UNSAFE, unsafe.toString());
  }
}
