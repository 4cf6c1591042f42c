package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.plant.ScriptedModel;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import bufferstop.spi.Port;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A scenario switches the controller off and on while the plant goes on. */
class RestartsTest {
  private static final String PROJECT =
      """
      project: Restarts
      scan: T#10ms
      plant_step: T#10ms
      controller:
        outputs:
          motor: {type: BOOL, text: Motor}
          brake: {type: BOOL, text: Brake, safe: TRUE}
        operator:
          go: {type: BOOL}
          speed: {type: INT, retain: TRUE}
        internal:
          runs: {type: UINT, retain: TRUE}
          lost: {type: UINT}
        logic: |
          motor := go;
          brake := FALSE;
          IF scan.first THEN
            runs := runs + 1;
            lost := lost + 1;
          END_IF;
      plants:
        p: {model: script, with: {}}
      wiring:
        - {from: motor, to: p.run}
      """;

  @TempDir Path folder;

  /** A plant that tells how many of its steps there were. */
  private Workbench bench() {
    double[] steps = {0};
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = steps[0]++)
            .input(Port.contact("run", ""))
            .output(Port.quantity("steps", "", ""));
    return Workbench.with(folder, PROJECT, model);
  }

  private ScenarioResult run(String deeds, String expectations) {
    String yaml =
        "scenario: s\nfor: T#3s\ndo:\n" + deeds.indent(2) + "expect:\n" + expectations.indent(2);
    return bench().run(Workbench.scenario(folder, yaml));
  }

  private static void assertPassed(ScenarioResult result) {
    assertEquals(
        Verdict.PASSED, result.verdict(), () -> result.expectations() + " " + result.notes());
  }

  @Test
  void thePlantGoesOnTheControllerBeginsAnewWithWhatIsRetained() {
    assertPassed(
        run(
            """
            - {at: T#100ms, write: {go: TRUE, speed: 7}}
            - {at: T#1s, restart: warm, for: T#500ms}
            """,
            """
            - {eventually: motor AND NOT brake, within: T#200ms}
            - {always: NOT motor, from: T#1s}
            - {always: brake, from: T#1s, to: T#1490ms}
            - {always: NOT brake, from: T#1500ms}
            - {always: speed = 0 AND scan.time = T#0s, from: T#1s, to: T#1490ms}
            - {always: speed = 7, from: T#1500ms}
            - {at_end: runs = 2 AND lost = 1}
            - {at_end: scan.time = T#1500ms}
            - {always: p.steps > 95.0, from: T#1s}
            - {at_end: p.steps > 295.0}
            """));
  }

  @Test
  void aColdStartBringsNothingBack() {
    assertPassed(
        run(
            """
            - {at: T#100ms, write: {speed: 7}}
            - {at: T#1s, restart: cold}
            """,
            """
            - {always: brake, from: T#1s, to: T#1990ms}
            - {at_end: speed = 0 AND runs = 1 AND lost = 1}
            """));
  }

  @Test
  void anotherRestartWhileItIsOffChangesNothing() {
    assertPassed(
        run(
            """
            - {at: T#100ms, write: {speed: 7}}
            - {at: T#1s, restart: warm, for: T#1s}
            - {at: T#1500ms, restart: cold, for: T#100ms}
            - {at: T#1700ms, write: {speed: 9}}
            """,
            """
            - {always: brake, from: T#1s, to: T#1990ms}
            - {at_end: speed = 7 AND runs = 2}
            """));
  }

  @Test
  void theRunIsTheSameEveryTime() {
    String deeds = "- {at: T#1s, restart: warm}\n- {at: T#2500ms, restart: cold, for: T#10ms}";
    ScenarioResult first = run(deeds, "- {always: NOT motor}");
    assertEquals(first.traceSha256(), run(deeds, "- {always: NOT motor}").traceSha256());
  }

  /** What falls because there is no controller is no event of its own. */
  @Test
  void isToldAsADeedWithItsEnd() {
    ScenarioResult result = run("- {at: T#1s, restart: warm}", "- {always: p.steps < 250.0}");
    String told = result.toString();
    assertTrue(told.contains("restart: warm, for: T#1000ms"), told);
    assertTrue(told.contains("end of restart: warm, for: T#1000ms"), told);
  }
}
