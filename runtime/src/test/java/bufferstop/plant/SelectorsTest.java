package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.rig.Rig;
import bufferstop.rig.Workbench;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Selectors and horns of the panel. */
class SelectorsTest {
  private static final Position HERE = Position.ofFile("test");
  private static final String PROJECT =
      """
      project: Selectors
      scan: T#10ms
      controller:
        inputs:
          by_hand: {type: BOOL}
          by_itself: {type: BOOL}
          pressed: {type: BOOL}
        outputs:
          warn: {type: BOOL}
        logic: warn := by_hand;
      panel:
        mode: {element: selector, positions: [off, hand, automatic]}
        lane: {element: selector, positions: [left, right]}
        go: {element: push_button}
        horn: {element: horn, text: before anything moves}
      circuits:
        released: panel.mode.automatic AND NOT panel.lane.right
      wiring:
        - {from: panel.mode.hand, to: by_hand}
        - {from: panel.mode.automatic, to: by_itself}
        - {from: panel.go, to: pressed}
        - {from: warn, to: panel.horn}
      """;

  @TempDir Path folder;

  private Workbench bench() {
    return Workbench.with(folder, PROJECT).scan(1);
  }

  private static String made(Workbench bench) {
    StringBuilder made = new StringBuilder();
    for (String contact : new String[] {"mode.off", "mode.hand", "mode.automatic"}) {
      made.append(bench.bool("panel." + contact) ? '1' : '0');
    }
    made.append(' ');
    for (String contact : new String[] {"lane.left", "lane.right"}) {
      made.append(bench.bool("panel." + contact) ? '1' : '0');
    }
    return made.toString();
  }

  @Test
  void standAtTheirFirstPosition() {
    assertEquals("100 10", made(bench()));
  }

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource({
    "panel.mode, hand, 010 10",
    "mode, automatic, 001 10",
    "PANEL.Mode, AUTOMATIC, 001 10",
    "lane, right, 100 01",
    "lane, left, 100 10",
  })
  void makeOneContactAndBreakTheOthers(String selector, String position, String contacts) {
    assertEquals(contacts, made(bench().turn(selector, position).scan(1)));
  }

  @Test
  void stayWhereTheyAreTurned() {
    Workbench bench = bench().turn("mode", "hand").scan(50);
    assertEquals("010 10", made(bench));
    assertEquals("100 10", made(bench.turn("mode", "off").scan(50)));
  }

  @Test
  void leadToInputsAndCircuits() {
    Workbench bench = bench().turn("mode", "automatic").scan(1);
    assertEquals("11", bench.record("by_itself", 2));
    assertEquals("11", bench.record("circuits.released", 2));
    assertEquals("00", bench.record("by_hand", 2));
    assertEquals("0", bench.turn("lane", "right").record("circuits.released", 1));
  }

  @Test
  void haveWiresThatBreak() {
    Workbench bench = bench().turn("mode", "hand").scan(2);
    assertEquals("1", bench.record("by_hand", 1));
    assertEquals("00", bench.wireFault("by_hand", "open").scan(1).record("by_hand", 2));
  }

  @Test
  void soundAHornThroughItsWire() {
    Workbench bench = bench();
    assertEquals("00", bench.record("panel.horn", 2));
    assertEquals("0111", bench.turn("mode", "hand").record("panel.horn", 4));
    assertEquals("00", bench.wireFault("warn", "open").record("panel.horn", 2));
  }

  @Test
  void leavePushButtonsAlone() {
    Workbench bench = bench().turn("mode", "hand").press("go").scan(1);
    assertEquals("11", bench.record("pressed", 2));
    assertEquals("00", bench.release("go").scan(1).record("pressed", 2));
    assertEquals("010 10", made(bench));
  }

  // turned before the scan at 50 ms; the input reads it in the next scan
  @Test
  void areTurnedByScenarios() {
    String scenario =
        """
        scenario: Turns
        for: T#300ms
        do:
          - {at: T#50ms, turn: panel.mode, to: hand}
          - {when: by_hand, after: T#100ms, turn: mode, to: automatic}
        expect:
          - always: panel.mode.off = (scan.time < T#50ms)
          - always: panel.mode.hand = (scan.time >= T#50ms AND scan.time < T#160ms)
          - always: by_itself = (scan.time >= T#170ms)
        """;
    ScenarioResult result = bench().run(Workbench.scenario(folder, scenario));
    assertEquals(Verdict.PASSED, result.verdict(), () -> "" + result.expectations());
  }

  private Diagnostic refusal(String selector, String position) {
    Diagnostics problems = new Diagnostics();
    Rig rig = Rig.build(Workbench.project(folder, PROJECT), PlantCatalog.of(), 1, problems);
    Name to = new Name(position, HERE);
    assertNull(rig.field().desk().turn(new Name(selector, HERE), to, problems));
    assertEquals(1, problems.errors());
    return problems.sorted().get(0);
  }

  @ParameterizedTest(name = "{0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "mode | hadn | selector `mode` has no position `hadn`",
        "mode | left | selector `mode` has no position `left`",
        "panel.go | hand | no selector named `panel.go`",
        "horn | hand | no selector named `horn`",
        "mdoe | hand | no selector named `mdoe`",
      })
  void turnToTheirOwnPositionsOnly(String selector, String position, String message) {
    assertEquals(message, refusal(selector, position).message());
  }

  @Test
  void nameTheirPositionsWhenOneIsUnknown() {
    assertEquals("off, hand, automatic", refusal("mode", "hadn").expected());
    assertEquals("did you mean `hand`?", refusal("mode", "hadn").help());
    assertEquals("did you mean `mode`?", refusal("mdoe", "hand").help());
  }
}
