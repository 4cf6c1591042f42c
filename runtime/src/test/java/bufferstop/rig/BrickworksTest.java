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
    List<Scenario> scenarios = ScenarioLoader.read(file, null, problems);
    assertEquals(List.of(), problems.sorted());
    return scenarios.get(0);
  }

  static List<Path> scenarios() throws IOException {
    return scenarios(CAREFUL);
  }

  static List<Path> scenarios(Project project) throws IOException {
    try (Stream<Path> files = Files.list(project.folder().resolve("scenarios"))) {
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
      02-shed-beam-open | never hazards.struck_wall
      08-start-with-loaded-tub | eventually haul.ready.X AND kiln_beam AND tub_beam AND \
      line.wagon.tub1.coupled AND line.wagon.tub1.load < 0.001 within T#38s
      12-start-with-tub-left-at-pit | never haul.ready.X
      13-start-with-tub-left-near-pit | never haul.ready.X
      14-start-with-tub-at-pit-engine-in-shed | never hazards.struck_wall
      15-pit-beam-open | never hazards.struck_wall
      16-pit-beam-short | never hazards.spilled_clay
      17-pit-beam-short-late | never hazards.spilled_clay
      18-pit-beam-open-in-fill | eventually haul.stopped.X AND fault_lamp
      19-spout-beam-open | eventually haul.stopped.X AND fault_lamp
      20-spout-beam-short | always loads_hauled = 0 OR NOT haul.to_pit.X
      22-pit-zone-short | eventually haul.stopped.X AND fault_lamp
      23-kiln-beam-open | never hazards.struck_wall
      24-kiln-beam-short | eventually haul.stopped.X AND fault_lamp
      25-kiln-beam-short-late | always scan.time < T#30s OR NOT kiln_tip
      26-kiln-beam-open-in-tip | eventually haul.stopped.X AND fault_lamp
      27-kiln-beam-open-on-way-back | never hazards.struck_wall
      28-tub-beam-open | always scan.time < T#30s OR NOT kiln_tip
      29-tub-beam-open-to-shed | eventually haul.stopped.X AND fault_lamp
      31-shed-beam-short | eventually haul.stopped.X AND fault_lamp
      32-shed-beam-short-late | always loads_hauled = 0 OR NOT haul.to_pit.X
      34-overrun-reed-short | eventually haul.stopped.X AND fault_lamp
      35-pit-reed-short | eventually haul.stopped.X AND fault_lamp
      36-k1-welded | never hazards.struck_wall
      37-k1-not-closing | eventually haul.stopped.X AND fault_lamp
      39-k2-dead | eventually haul.stopped.X AND fault_lamp
      40-polarity-relay-dead | never hazards.struck_wall
      41-polarity-relay-sticks | never hazards.struck_wall
      42-polarity-relay-dead-in-shed | never hazards.struck_wall
      43-motor-open | eventually haul.stopped.X AND fault_lamp
      44-uncoupler-jammed | eventually haul.stopped.X AND fault_lamp
      45-coupler-will-not-couple | never hazards.spilled_clay
      46-tub-left-behind | never haul.ready.X
      47-hopper-gate-stuck-open | eventually haul.stopped.X AND fault_lamp
      48-hopper-valve-open-without-tub | eventually haul.stopped.X AND fault_lamp
      49-tip-time-too-short | never hazards.spilled_clay
      50-little-clay | always loads_hauled = 0 OR NOT haul.to_pit.X
      59-emergency-stop-in-every-phase | when NOT panel.estop within T#40ms that NOT (traction \
      OR line_enable OR kiln_tip OR uncoupler OR hopper_valve.remote)
      61-reset-held-down | always scan.time < T#24s OR NOT traction
      64-manual-jogs | never hazards.spilled_clay
      66-manual-gate-away-from-pit | never hazards.spilled_clay
      67-manual-gate-tub-too-far | never hazards.spilled_clay
      68-manual-tip-away-from-kiln | never kiln_tip
      69-manual-tip-without-tub | never kiln_tip
      71-jog-into-shed-end | never hazards.struck_wall
      72-jog-into-pit-end | never hazards.struck_wall
      74-start-in-manual | never traction
      75-start-with-selector-off | never haul.to_pit.X
      76-mode-left-during-haul | eventually haul.stopped.X AND fault_lamp
      79-ac16-lost | eventually haul.stopped.X AND scan.time > T#49s
      80-ac16-dip | eventually haul.stopped.X AND scan.time > T#49s
      81-dc5-lost | eventually haul.stopped.X AND scan.time > T#49s
      82-dc5-dip | eventually haul.stopped.X AND scan.time > T#49s
      83-dc24-monitor-open | eventually haul.stopped.X AND fault_lamp
      85-rack-lost | never hazards.struck_wall
      86-rack-lost-before-leaving | eventually haul.stopped.X AND fault_lamp
      87-rack-lost-in-fill | eventually haul.stopped.X AND fault_lamp
      88-rack-late | eventually haul.stopped.X AND fault_lamp
      90-loose-contact-pit-beam | never hazards.spilled_clay
      91-loose-contact-chain | eventually haul.stopped.X AND fault_lamp
      93-level-drift | eventually haul.stopped.X AND fault_lamp
      94-level-wire-open | eventually haul.stopped.X AND fault_lamp
      95-refused-tub-beam-dead | never haul.to_pit.X
      96-refused-reed-shorted | never haul.to_pit.X
      97-motor-open-at-power-on | eventually haul.stopped.X AND fault_lamp
      98-polarity-relay-dead-at-power-on | never hazards.struck_wall
      99-shed-beam-short-on-way-to-kiln | eventually haul.stopped.X AND fault_lamp
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
        with: {line: {locomotives: {loco: {start: 0.78}}, wagons: {tub1: {start: 0.60}}}}
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
