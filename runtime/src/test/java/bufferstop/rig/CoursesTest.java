package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import bufferstop.plant.ScriptedModel;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.ScenarioRun;
import bufferstop.scenario.Verdict;
import bufferstop.spi.Port;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Stimuli that run their course, force, skip scans, repeat and follow each other. */
class CoursesTest {
  private static final String PROJECT =
      """
      project: Courses
      scan: T#10ms
      controller:
        inputs:
          beam: {type: BOOL}
          level: {type: REAL}
        outputs:
          gate: {type: BOOL}
        operator:
          start: {type: BOOL, momentary: TRUE}
          speed: {type: INT, initial: 10, range: [0, 100]}
          pause: {type: TIME, initial: T#1s}
          rate: {type: REAL, initial: 1.0}
        internal:
          starts: {type: UINT}
        logic: |
          gate := beam;
          IF start THEN starts := starts + 1; END_IF;
      plants:
        p: {model: script, with: {}}
      wiring:
        - {from: p.beam, to: beam}
        - {from: p.level, to: level}
      """;

  @TempDir Path folder;

  private Workbench bench() {
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[1] = 5)
            .output(Port.contact("beam", ""))
            .output(Port.quantity("level", "m", ""));
    return Workbench.with(folder, PROJECT, model);
  }

  private static String file(String deeds, String... expectations) {
    return "scenario: Courses\nfor: T#300ms\ndo:\n"
        + deeds.indent(2)
        + "expect:\n  - "
        + String.join("\n  - ", expectations)
        + "\n";
  }

  private ScenarioResult run(String deeds, String... expectations) {
    return bench().run(Workbench.scenario(folder, file(deeds, expectations)));
  }

  private void holds(String deeds, String... expectations) {
    ScenarioResult result = run(deeds, expectations);
    assertEquals(
        Verdict.PASSED, result.verdict(), () -> result.expectations() + " " + result.notes());
  }

  private List<String> refused(String deed) throws IOException {
    Diagnostics problems = new Diagnostics();
    Path yaml = Files.writeString(folder.resolve("s.yaml"), file(deed, "always: TRUE"));
    for (Scenario scenario : ScenarioLoader.read(yaml, null, problems)) {
      ScenarioRun.link(scenario, bench().target(), problems);
    }
    return problems.sorted().stream().map(d -> d.message()).toList();
  }

  @Test
  void aRampOfASettingIsWrittenOnceAScan() {
    holds(
        "- {at: T#50ms, ramp: {point: speed, from: 10, to: 20}, over: T#100ms}",
        "always: scan.time <= T#50ms AND speed = 10 OR scan.time > T#50ms",
        "{when: scan.time = T#100ms, within: T#0s, that: speed = 15}",
        "{when: scan.time = T#110ms, within: T#0s, that: speed = 16}",
        "{always: speed = 20, from: T#150ms}");
  }

  @Test
  void aRampOfATimeAndOfARealGoThroughTheirMiddle() {
    holds(
        """
        - {at: T#0s, ramp: {point: pause, from: T#1s, to: T#2s}, over: T#100ms}
        - {at: T#0s, ramp: {point: rate, from: 1.0, to: -1.0}, over: T#100ms}
        """,
        "{when: scan.time = T#50ms, within: T#0s, that: pause = T#1500ms}",
        "{always: pause = T#2s, from: T#100ms}",
        "{when: scan.time = T#75ms, within: T#5s, that: TRUE}".replace("T#75ms", "T#70ms"),
        "{always: rate = -1.0, from: T#100ms}");
  }

  @Test
  void aRampOnAWireHoldsItsEndUntilItIsLetGo() {
    holds(
        "- {at: T#50ms, ramp: {wire: level, from: 1.0, to: 3.0}, over: T#100ms, for: T#150ms}",
        "{always: level = 5.0, to: T#50ms}",
        "{when: scan.time = T#110ms, within: T#0s, that: level = 2.0}",
        "{always: level = 3.0, from: T#160ms, to: T#200ms}",
        "{always: level = 5.0, from: T#210ms}");
  }

  @Test
  void aFaultSetDuringARampTakesTheWire() {
    holds(
        """
        - {at: T#50ms, ramp: {wire: level, from: 1.0, to: 3.0}, over: T#100ms, for: T#150ms}
        - {at: T#100ms, fault: {wire: level, mode: open}}
        """,
        "{always: level = 0.0, from: T#110ms}");
  }

  @Test
  void aPulseOnAWireAndOnASettingGoBackToWhatWas() {
    holds(
        """
        - {at: T#50ms, pulse: {wire: beam}, for: T#30ms}
        - {at: T#50ms, pulse: {point: speed, value: 50}, for: T#30ms}
        """,
        "{count: gate, between: [1, 1]}",
        "{stable: gate, for: T#20ms}",
        "always: (speed = 50) = (scan.time >= T#50ms AND scan.time < T#80ms)",
        "{at_end: speed = 10}");
  }

  @Test
  void aForceActsOnInputAndOutputUntilItIsTakenAway() {
    holds(
        """
        - {at: T#50ms, force: {beam: TRUE}}
        - {at: T#100ms, force: {gate: FALSE, level: 7.5}}
        - {at: T#150ms, unforce: gate}
        - {at: T#200ms, unforce: all}
        """,
        "{always: beam, from: T#50ms, to: T#190ms}",
        "{always: gate, from: T#50ms, to: T#90ms}",
        "{never: gate, from: T#100ms, to: T#140ms}",
        "{always: gate, from: T#150ms, to: T#190ms}",
        "{always: level = 7.5, from: T#100ms, to: T#190ms}",
        "{never: beam OR gate, from: T#200ms}",
        "{at_end: level = 5.0}");
  }

  @Test
  void skippedScansAreTimeThatTheControllerMisses() {
    ScenarioResult result =
        run(
            "- {at: T#100ms, skip: 3}",
            "never: scan.time >= T#100ms AND scan.time < T#130ms",
            "{eventually: scan.time = T#130ms AND scan.count = 10, within: T#130ms}");
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result.expectations());
    assertEquals(28, result.scans());
    assertEquals(310_000, result.virtualMicros());
  }

  @ParameterizedTest(name = "{0}: {1} starts")
  @CsvSource(
      delimiter = '|',
      value = {
        "at: T#50ms, times: 4, every: T#20ms | 4",
        "at: T#50ms, every: T#100ms | 3",
        "'when: starts = 0, after: T#10ms, times: 2, every: T#50ms' | 2",
      })
  void aStimulusIsRepeated(String trigger, int starts) {
    holds("- {" + trigger + ", write: {start: TRUE}}", "{at_end: starts = " + starts + "}");
  }

  @Test
  void aStimulusIsDoneEachTimeItsConditionComesTrueAnew() {
    holds(
        """
        - {at: T#20ms, times: 3, every: T#50ms, pulse: {wire: beam}, for: T#20ms}
        - {when: beam, times: 3, write: {start: TRUE}}
        """,
        "{at_end: starts = 3}");
  }

  @Test
  void oneThatIsNotDoneOftenEnoughProvesNothing() {
    ScenarioResult result =
        run("- {at: T#50ms, times: 4, every: T#100ms, write: {start: TRUE}}", "always: TRUE");
    assertEquals(Verdict.INCONCLUSIVE, result.verdict());
    assertEquals(List.of("the stimulus at line 4:5 was done 3 of 4 times"), result.notes());
  }

  @Test
  void aStimulusFollowsAnother() {
    holds(
        """
        - {id: cut, at: T#50ms, fault: {wire: level, mode: open}}
        - {id: go, follows: cut, after: T#30ms, write: {start: TRUE}}
        - {follows: go, write: {speed: 20}}
        - {follows: cut, after: T#100ms, clear: {wire: level}}
        """,
        "{when: scan.time = T#80ms, within: T#0s, that: start AND speed = 20}",
        "{always: level = 0.0, from: T#60ms, to: T#150ms}",
        "{always: level = 5.0, from: T#160ms}");
  }

  @Test
  void whatCannotBeDoneIsRefused() throws IOException {
    assertEquals(
        List.of("a BOOL has nothing between its values"),
        refused("- {at: T#1ms, ramp: {wire: beam, from: 0.0, to: 1.0}, over: T#1s}"));
    assertEquals(
        List.of("`speed` cannot be 200"),
        refused("- {at: T#1ms, ramp: {point: speed, from: 0, to: 200}, over: T#1s}"));
    assertEquals(
        List.of("the pulse does not say how high it is"),
        refused("- {at: T#1ms, pulse: {wire: level}, for: T#1s}"));
    assertEquals(
        List.of("no input or output named `speed`"), refused("- {at: T#1ms, force: {speed: 1}}"));
    assertEquals(
        List.of("no scan for T#2s would end the run"), refused("- {at: T#1ms, skip: 200}"));
    assertEquals(
        List.of("no stimulus above has the id `gone`"),
        refused("- {follows: gone, write: {start: TRUE}}"));
    assertEquals(
        List.of("all of these times are the same"),
        refused("- {at: T#1ms, times: 3, write: {start: TRUE}}"));
  }
}
