package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostics;
import bufferstop.rig.Rig;
import bufferstop.rig.Workbench;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import bufferstop.spi.Port;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Hazards are judged in every plant step; here a scan has ten. */
class HazardsTest {
  private static final String PROJECT =
      """
      project: Hazards
      scan: T#10ms
      plant_step: T#1ms
      controller:
        inputs:
          seen: {type: LREAL}
      plants:
        p: {model: script, with: {}}
      wiring:
        - {from: p.a, to: seen}
      hazards:
        h: %s
      """;

  @TempDir Path folder;

  /** Port a is 1 but {@code peak} in step 25 alone, b is 1 but {@code peak} in step 27. */
  private Workbench bench(String hazard, double peak) {
    return Workbench.with(folder, PROJECT.formatted(hazard), model(peak));
  }

  private static ScriptedModel model(double peak) {
    return new ScriptedModel(
            "script",
            p -> {
              p.out[0] = p.step == 25 ? peak : 1;
              p.out[1] = p.step == 27 ? peak : 1;
            })
        .output(Port.quantity("a", "m", ""))
        .output(Port.quantity("b", "m", ""));
  }

  @ParameterizedTest(name = "{0} is seen when the port is {1} for one step")
  @CsvSource({
    "p.a > 2.0, 3",
    "p.a < 0.5, 0.1",
    "NOT (p.a >= 0.5), 0.1",
    "0.5 > p.a, 0.1",
    "p.a < 0.5 OR p.b > 7.0, 0.1",
    "p.a < 0.5 AND p.b < 1.5, 0.1",
    "p.a - 2.0 > 0.0, 3",
    "ABS(p.a) > 2.0, -3",
    "p.a = 3.0, 3",
    "p.a > 2.0 XOR FALSE, 3",
  })
  void areSeenBetweenScansAndShowTheWorstValue(String hazard, double peak) {
    Workbench bench = bench(hazard, peak).scan(2);
    assertFalse(bench.bool("hazards.h"));
    assertEquals(1, bench.real("p.a"));
    bench.scan(1); // steps 21 to 30
    assertTrue(bench.bool("hazards.h"));
    assertEquals(peak, bench.real("p.a"));
    bench.scan(1);
    assertFalse(bench.bool("hazards.h"));
    assertEquals(1, bench.real("p.a"));
  }

  @Test
  void leaveTheLiveValueOnTheWires() {
    Workbench bench = bench("p.a > 2.0", 3).scan(3);
    assertEquals(3, bench.real("p.a"));
    bench.scan(1);
    assertEquals(1, bench.real("seen"), "the wire delivers what the port is, not what it was");
  }

  @Test
  void leavePortsAloneThatFeedNone() {
    assertEquals(1, bench("p.b > 2.0", 3).scan(3).real("p.a"));
  }

  /** Scans after 20 steps, then lets one period pass without a scan. */
  private Rig skipping(String hazard, double peak) {
    Rig rig =
        Rig.build(
            Workbench.project(folder, PROJECT.formatted(hazard)),
            PlantCatalog.of(model(peak)),
            1,
            new Diagnostics());
    rig.engine().scan(0);
    rig.engine().scan(0);
    rig.engine().catchUp(1); // steps 21 to 30
    return rig;
  }

  private static long shown(Rig rig, String name) {
    return rig.engine().cells()[rig.layout().field().find(name).index()];
  }

  private static double port(Rig rig) {
    return Double.longBitsToDouble(shown(rig, "p.a"));
  }

  @ParameterizedTest(name = "{0} is seen though nothing was scanned when the port was {1}")
  @CsvSource({"p.a > 2.0, 3", "p.a < 0.5, 0.1", "NOT (p.a <= 2.0), 3"})
  void ofSkippedPeriodsShowInTheNextScan(String hazard, double peak) {
    Rig rig = skipping(hazard, peak);
    rig.engine().scan(1); // steps 31 to 40
    assertEquals(1, shown(rig, "hazards.h"));
    assertEquals(peak, port(rig));
    rig.engine().scan(0);
    assertEquals(0, shown(rig, "hazards.h"), "and in that scan alone");
    assertEquals(1, port(rig));
  }

  @Test
  void ofSkippedPeriodsShowWhateverWasSkippedAfterThem() {
    Rig rig = skipping("p.a > 2.0", 3);
    rig.engine().catchUp(3);
    rig.engine().scan(4);
    assertEquals(1, shown(rig, "hazards.h"));
    rig.engine().catchUp(3);
    rig.engine().scan(3);
    assertEquals(0, shown(rig, "hazards.h"));
  }

  private ExpectationResult never(String hazard, double peak) {
    String scenario =
        """
        scenario: Never
        for: T#100ms
        expect:
          - never: hazards.h
        """;
    ScenarioResult result = bench(hazard, peak).run(Workbench.scenario(folder, scenario));
    return result.expectations().get(0);
  }

  @ParameterizedTest(name = "{0}: {1}, margin {2}")
  @CsvSource({
    "p.a > 2.0, FAILED, -1",
    "p.a < 0.5, PASSED, 0.5",
    "p.a > 4.0, PASSED, 1",
    "p.a > 4.0 OR p.b > 3.5, PASSED, 0.5",
  })
  void giveTheirMarginOverEveryPlantStep(String hazard, Verdict verdict, double margin) {
    ExpectationResult result = never(hazard, 3);
    assertEquals(verdict, result.verdict());
    assertEquals(margin, result.margin(), 1e-12);
    assertEquals("m", result.unit());
  }

  @Test
  void failAnExpectationWhenAPortDipsForOneStep() {
    ExpectationResult result = never("p.a < 0.5", 0.1);
    assertEquals(Verdict.FAILED, result.verdict());
    assertEquals(-0.4, result.margin(), 1e-12);
    assertEquals(20_000, result.atMicros());
    assertTrue(result.values().toString().contains("p.a = 0.1 m"), result.values().toString());
  }

  @Test
  void areNotMadeFromPeaksOfDifferentSteps() {
    // a is 3 in step 25 and b in step 27, both in the third scan, but never together
    ExpectationResult result = never("p.a > 2.0 AND p.b > 2.0", 3);
    assertEquals(Verdict.PASSED, result.verdict());
    assertEquals(
        0, result.margin(), "how near they came together is not known, so nothing is left");
  }
}
