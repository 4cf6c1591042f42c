package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

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

class DeskTest {
  private static final String PROJECT =
      """
      project: Desk
      scan: T#10ms
      controller:
        inputs:
          go: {type: BOOL}
        outputs:
          lit: {type: BOOL}
        logic: lit := TRUE;
      panel:
        go: {element: push_button}
        stop: {element: push_button, contact: normally_closed}
        estop: {element: push_button, contact: normally_closed, latching: TRUE}
        lamp: {element: lamp}
      wiring:
        - {from: panel.go, to: go}
        - {from: lit, to: panel.lamp}
      """;

  @TempDir Path folder;

  @ParameterizedTest(name = "{0} is {1} at rest and {2} while pressed")
  @CsvSource({"go, 0, 1", "stop, 1, 0", "panel.estop, 1, 0", "PANEL.GO, 0, 1"})
  void movesTheContactOfAButton(String button, String rest, String pressed) {
    String name = button.contains(".") ? button : "panel." + button;
    Workbench bench = Workbench.with(folder, PROJECT).scan(1);
    assertEquals(rest, bench.record(name, 1));
    assertEquals(pressed, bench.press(button).record(name, 1));
    assertEquals(rest, bench.release(button).record(name, 1));
  }

  @Test
  void lightsALampThroughItsWire() {
    Workbench bench = Workbench.with(folder, PROJECT);
    assertEquals("11", bench.record("panel.lamp", 2));
    assertEquals("00", bench.wireFault("lit", "open").record("panel.lamp", 2));
  }

  // deeds at T#20ms act before the scan at 20 ms; the input reads them in the next scan
  @ParameterizedTest(name = "{0}: the input is TRUE from {1} ms up to {2} ms")
  @CsvSource(
      delimiter = '|',
      value = {
        "{at: T#20ms, press: panel.go, for: T#30ms} | 30 | 50",
        "{at: T#20ms, press: go, for: T#1ms} | 30 | 30",
        "{at: T#11ms, press: go, for: T#2ms} | 30 | 30",
        "{at: T#20ms, press: go} | 30 | 320",
      })
  void holdsAButtonForATime(String deed, long firstMillis, long lastMillis) {
    String expect =
        "(scan.time >= T#%dms AND scan.time <= T#%dms) = go".formatted(firstMillis, lastMillis);
    assertEquals(Verdict.PASSED, run(deed, expect).verdict());
  }

  @Test
  void keepsALatchingButtonDownUntilReleased() {
    String press = "{at: T#20ms, press: panel.estop, for: T#10ms}";
    String release = "{at: T#200ms, release: panel.estop}";
    String expect = "(scan.time >= T#20ms AND scan.time < T#200ms) = NOT panel.estop";
    assertEquals(Verdict.PASSED, run(press + "\n  - " + release, expect).verdict());
  }

  private ScenarioResult run(String deeds, String expect) {
    String scenario =
        """
        scenario: Press
        for: T#500ms
        do:
          - %s
        expect:
          - always: %s
        """;
    return Workbench.with(folder, PROJECT)
        .run(Workbench.scenario(folder, scenario.formatted(deeds, expect)));
  }

  @ParameterizedTest
  @CsvSource({"panel.lamp", "panel.gone", "go2"})
  void knowsNoOtherButtons(String name) {
    Diagnostics problems = new Diagnostics();
    Rig rig = Rig.build(Workbench.project(folder, PROJECT), PlantCatalog.of(), 1, problems);
    rig.field().desk().press(new Name(name, Position.ofFile("test")), problems);
    assertEquals(1, problems.errors());
    assertTrue(problems.sorted().get(0).message().contains("`" + name + "`"));
  }
}
