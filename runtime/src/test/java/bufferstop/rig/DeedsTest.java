package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.SourceText;
import bufferstop.plant.ScriptedModel;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Target.Prepared;
import bufferstop.scenario.Verdict;
import bufferstop.spi.PlantFault;
import bufferstop.spi.Port;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a scenario does to a virtual rig. */
class DeedsTest {
  private static final Position HERE = Position.ofFile("test");
  private static final String PROJECT =
      """
      project: Deeds
      scan: T#10ms
      controller:
        inputs:
          go: {type: BOOL}
        outputs:
          q: {type: BOOL}
        operator:
          start: {type: BOOL, momentary: TRUE}
          count: {type: UINT, initial: 2, range: [2, 7]}
          pause: {type: TIME, initial: T#2s, range: [T#1s, T#10s]}
          force: {type: REAL, range: [-1.5, 1.5]}
      panel:
        go: {element: push_button}
        lamp: {element: lamp}
      plants:
        p: {model: script, with: {}}
      wiring:
        - {from: panel.go, to: go}
        - {from: q, to: panel.lamp}
      """;

  @TempDir Path folder;

  private Workbench bench() {
    return bench(PROJECT);
  }

  private Workbench bench(String project) {
    ScriptedModel model =
        new ScriptedModel(
                "script",
                p -> {
                  p.out[0] = p.amounts[0];
                  p.out[1] = p.amounts[1];
                })
            .output(Port.quantity("slip", "", ""))
            .output(Port.quantity("jam", "", ""))
            .fault(new PlantFault("slip", "", 0, 1, ""))
            .fault(new PlantFault("jam", "", 0, 1, ""));
    return Workbench.with(folder, project, model);
  }

  private static Scenario.Write write(String... pairs) {
    List<Assignment> values = new ArrayList<>();
    for (int i = 0; i < pairs.length; i += 2) {
      values.add(new Assignment(new Name(pairs[i], HERE), SourceText.of(pairs[i + 1])));
    }
    return new Scenario.Write(values, false);
  }

  @ParameterizedTest(name = "{0} := {1}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "count | 1 | `count` cannot be 1",
        "count | 8 | `count` cannot be 8",
        "COUNT | 8 | `count` cannot be 8",
        "pause | T#999ms | `pause` cannot be T#999ms",
        "pause | T#10s1ms | `pause` cannot be T#10s1ms",
        "force | 1.6 | `force` cannot be 1.6",
        "force | -1.6 | `force` cannot be -1.6",
        "q | TRUE | no operator point named `q`",
        "strat | TRUE | no operator point named `strat`",
      })
  void refuseWritesThatAnHmiCouldNotMake(String point, String value, String message) {
    Diagnostics problems = new Diagnostics();
    assertNull(bench().target().prepare(write("start", "TRUE", point, value), problems));
    assertEquals(1, problems.errors());
    assertEquals(message, problems.sorted().get(0).message());
  }

  @ParameterizedTest(name = "{0} := {1} is {2}")
  @CsvSource({"count, 2", "count, 7", "pause, T#1s", "pause, T#10s", "force, -1.5", "Force, 1.5"})
  void writeUpToTheBoundsOfTheRange(String point, String value) {
    Diagnostics problems = new Diagnostics();
    Workbench bench = bench();
    Prepared prepared = bench.target().prepare(write(point, value), problems);
    assertNotNull(prepared, () -> "" + problems.sorted());
    prepared.begin();
    bench.scan(1);
    String expect = "%s = %s".formatted(point, value);
    ScenarioResult result = bench.run(Workbench.scenario(folder, scenario("", expect)));
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result.expectations());
  }

  private static String scenario(String deeds, String... always) {
    String head = "scenario: Deeds\nfor: T#200ms\n" + (deeds.isEmpty() ? "" : "do:\n" + deeds);
    return head + "expect:\n  - always: " + String.join("\n  - always: ", always) + "\n";
  }

  private void holds(String deeds, String... always) {
    ScenarioResult result = bench().run(Workbench.scenario(folder, scenario(deeds, always)));
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result.expectations());
  }

  @Test
  void writeAMomentaryPointForOneScan() {
    holds("  - {at: T#50ms, write: {start: TRUE}}\n", "start = (scan.time = T#50ms)");
  }

  @Test
  void doNothingByAWriteThatIsRefused() {
    holds(
        """
          - {at: T#50ms, write: {count: 8}, refused: TRUE}
          - {at: T#60ms, write: {count: 5, pause: T#11s}, refused: TRUE}
          - {at: T#70ms, write: {start: TRUE, count: 1}, refused: TRUE}
        """,
        "count = 2",
        "pause = T#2s",
        "NOT start");
  }

  @ParameterizedTest(name = "{0} := {1}, to be refused: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "count | 7 | this write is in range and would not be refused",
        "pause | T#1s | this write is in range and would not be refused",
        "start | TRUE | this write is in range and would not be refused",
        "conut | 9 | no operator point named `conut`",
        "q | TRUE | no operator point named `q`",
        "count | T#9s | `T#9s` is TIME",
      })
  void doNotTakeAMistakeForARefusal(String point, String value, String message) {
    Diagnostics problems = new Diagnostics();
    Scenario.Write write = new Scenario.Write(write(point, value).values(), true);
    assertNull(bench().target().prepare(write, problems));
    assertEquals(1, problems.errors(), () -> "" + problems.sorted());
    assertEquals(message, problems.sorted().get(0).message());
  }

  @Test
  void keepASupplyLostWhileOneOfTwoLossesLasts() {
    String project = PROJECT.replace("go: {type: BOOL}", "go: {type: BOOL, supply: dc24}");
    String deeds =
        """
          - {at: T#0ms, press: go, for: T#1s}
          - {at: T#50ms, fault: {supply: dc24}, for: T#50ms}
          - {at: T#70ms, fault: {supply: dc24}, for: T#80ms}
        """;
    String gone =
        "go = (scan.time >= T#10ms AND NOT (scan.time >= T#60ms AND scan.time <= T#150ms))";
    ScenarioResult result =
        bench(project + "supplies: {dc24: {}}\n")
            .run(Workbench.scenario(folder, scenario(deeds, gone)));
    assertEquals(Verdict.PASSED, result.verdict(), () -> result.expectations().toString());
  }

  @Test
  void endAFaultAfterItsTime() {
    holds(
        "  - {at: T#50ms, fault: {wire: go, mode: short}, for: T#30ms}\n",
        "go = (scan.time >= T#60ms AND scan.time <= T#80ms)");
  }

  @Test
  void leaveALaterFaultOfTheWireWhenAnEarlierOneEnds() {
    holds(
        """
          - {at: T#50ms, fault: {wire: go, mode: inverted}, for: T#50ms}
          - {at: T#70ms, fault: {wire: go, mode: short}}
        """,
        "go = (scan.time >= T#60ms)");
  }

  @Test
  void leaveThePlantsOtherFaultsWhenOneEnds() {
    holds(
        """
          - {at: T#50ms, fault: {plant: p, mode: slip}, for: T#50ms}
          - {at: T#70ms, fault: {plant: p, mode: jam}}
        """,
        "(p.slip > 0.5) = (scan.time >= T#50ms AND scan.time < T#100ms)",
        "(p.jam > 0.5) = (scan.time >= T#70ms)");
  }

  @Test
  void clearWhateverIsOnAWire() {
    holds(
        """
          - {at: T#50ms, fault: {wire: go, mode: inverted}}
          - {at: T#70ms, fault: {wire: go, mode: short}}
          - {at: T#100ms, clear: {wire: go}}
        """,
        "go = (scan.time >= T#60ms AND scan.time < T#110ms)");
  }
}
