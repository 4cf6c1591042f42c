package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Fault.Place;
import bufferstop.rig.Workbench;
import bufferstop.spi.Port;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Points on a remote node. A scan has one plant step of 1 ms, so scan n, counted from 0, sees what
 * step n left and ends with step n + 1; the link carries values in steps 5, 10, 15 and so on. The
 * plant counts its steps, and what it shows arrives one step later.
 */
class NodesTest {
  private static final String PROJECT =
      """
      project: Nodes
      scan: T#1ms
      plant_step: T#1ms
      controller:
        inputs:
          near: {type: REAL}
          far: {type: REAL, node: RACK}
          made: {type: BOOL, node: rack}
        outputs:
          q: {type: BOOL, node: rack}
          r: {type: BOOL, node: rack, safe: TRUE}
          local: {type: BOOL}
        internal:
          told: {type: BOOL}
        logic: |
          q := scan.time >= T#2ms;
          r := FALSE;
          local := scan.time >= T#2ms;
          told := NOT nodes.rack.ok;
      nodes:
        rack: {cycle: T#5ms, timeout: T#12ms, on_loss: safe}
      plants:
        p: {model: script, with: {}}
      circuits:
        relay: q
      wiring:
        - {from: p.count, to: near}
        - {from: p.count, to: far}
        - {from: p.on, to: made}
        - {from: q, to: p.q, name: q_wire}
        - {from: r, to: p.r}
        - {from: local, to: p.local}
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
                  p.out[0] = p.step;
                  p.out[1] = 1;
                })
            .input(Port.contact("q", "").orElse(0))
            .input(Port.contact("r", "").orElse(0))
            .input(Port.contact("local", "").orElse(0))
            .output(Port.quantity("count", "", "steps so far"))
            .output(Port.contact("on", ""));
    return Workbench.with(folder, project, model);
  }

  private Workbench holding() {
    return bench(PROJECT.replace("on_loss: safe", "on_loss: hold"));
  }

  private static List<Integer> reals(Workbench bench, String name, int scans) {
    List<Integer> seen = new ArrayList<>();
    for (int i = 0; i < scans; i++) {
      seen.add((int) bench.scan(1).real(name));
    }
    return seen;
  }

  @Test
  void bringInputsOnceACycle() {
    assertEquals(List.of(0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10), reals(bench(), "near", 12));
    assertEquals(List.of(0, 0, 0, 0, 0, 4, 4, 4, 4, 4, 9, 9), reals(bench(), "far", 12));
  }

  @Test
  void takeOutputsOnceACycle() {
    assertEquals("0011111111", bench().record("q", 10));
    assertEquals("0000111111", bench().record("q.remote", 10), "in step 5, the last of scan 4");
  }

  @Test
  void giveTheirOutputsToWiresAndCircuits() {
    assertEquals("0011111111", bench().record("p.local", 10));
    assertEquals("0000011111", bench().record("p.q", 10));
    assertEquals("0000011111", bench().record("q.contact", 10));
    assertEquals("0000011111", bench().record("circuits.relay", 10));
  }

  @Test
  void giveSafeValuesFromTimeZero() {
    assertEquals("1111000000", bench().record("r.remote", 10));
    assertEquals("1111100000", bench().record("p.r", 10));
  }

  @Test
  void roundTheirCycleUpToWholePlantSteps() {
    Workbench bench = bench(PROJECT.replace("cycle: T#5ms", "cycle: T#2.5ms"));
    assertEquals(List.of(0, 0, 0, 2, 2, 2, 5, 5, 5, 8), reals(bench, "far", 10));
  }

  @Test
  void areWellWhileValuesCome() {
    assertEquals("1".repeat(50), bench().record("nodes.rack.ok", 50));
  }

  // the last exchange is in step 5; 12 ms of silence end with step 17, the last of scan 16
  @Test
  void areLostAfterTheTimeoutAndNotBefore() {
    Workbench bench = bench().scan(7).nodeLost("rack");
    assertEquals("1".repeat(10) + "0".repeat(40), bench.record("nodes.rack.ok", 50));
  }

  @Test
  void areLostNoMatterWhenInTheCycleTheLinkBroke() {
    for (int scans = 5; scans <= 9; scans++) {
      Workbench bench = bench().scan(scans).nodeLost("rack");
      assertEquals("1".repeat(17 - scans) + "000", bench.record("nodes.rack.ok", 20 - scans));
    }
  }

  @Test
  void surviveASilenceAsLongAsTheTimeout() {
    Workbench bench = bench(PROJECT.replace("timeout: T#12ms", "timeout: T#15ms")).scan(7);
    bench.nodeLost("rack").scan(10).clear(Place.NODE, "rack"); // from step 5 to step 20
    assertEquals("1".repeat(30), bench.record("nodes.rack.ok", 30));
  }

  @Test
  void tellTheControllerInTheNextScan() {
    Workbench bench = bench().scan(7).nodeLost("RACK");
    assertEquals("0".repeat(11) + "1111", bench.record("told", 15));
  }

  @Test
  void readFalseAndZeroWhenLost() {
    Workbench bench = bench().scan(7).nodeLost("rack");
    assertEquals("1".repeat(11) + "0000", bench.record("made", 15));
    assertEquals(0, bench.real("far"));
    assertEquals(20, bench.real("near"), "inputs of the controller's own rack are not concerned");
  }

  @Test
  void keepTheirLastInputsWhenToldTo() {
    Workbench bench = holding().scan(7).nodeLost("rack").scan(30);
    assertFalse(bench.bool("nodes.rack.ok"));
    assertTrue(bench.bool("made"));
    assertEquals(4, bench.real("far"));
  }

  @Test
  void giveSafeOutputsWhenLost() {
    Workbench bench = bench().scan(7).nodeLost("rack");
    assertEquals("1".repeat(10) + "00000", bench.record("q.remote", 15));
    assertTrue(bench.bool("q"), "the controller still says so");
    assertTrue(bench.bool("r.remote"));
    assertFalse(bench.bool("p.q"));
    assertTrue(bench.bool("p.local"));
  }

  @Test
  void keepTheirOutputsWhenToldTo() {
    Workbench bench = holding().nodeLost("rack").scan(30);
    assertTrue(bench.bool("q"));
    assertFalse(bench.bool("q.remote"), "what it was when the link broke");
    assertFalse(holding().scan(7).nodeLost("rack").scan(30).bool("r.remote"));
  }

  @Test
  void returnWithTheNextCycle() {
    Workbench bench = bench().scan(7).nodeLost("rack").scan(15).clear(Place.NODE, "rack");
    assertEquals("00111", bench.record("nodes.rack.ok", 5), "step 25 is the last of scan 24");
    assertEquals(24, bench.real("far"));
    assertTrue(bench.bool("made"));
    assertTrue(bench.bool("q.remote"));
    assertFalse(bench.bool("r.remote"));
  }

  private Workbench late(Workbench bench, int millis) {
    return bench.fault(Place.NODE, "rack", "late", null, millis * 1000L);
  }

  @ParameterizedTest(name = "{0} ms are one cycle")
  @ValueSource(ints = {1, 4, 5})
  void bringInputsSomeCyclesLate(int millis) {
    Workbench bench = late(bench().scan(7), millis);
    assertEquals(List.of(4, 4, 4, 4, 4, 4, 4, 4, 9, 9, 9, 9, 9, 14, 14), reals(bench, "far", 15));
  }

  @Test
  void takeOutputsSomeCyclesLate() {
    assertEquals("00000000000000111111", late(bench(), 10).record("q.remote", 20));
  }

  @Test
  void stayWellWhenTheGapOfALateLinkIsShort() {
    assertEquals("1".repeat(50), late(bench().scan(7), 5).record("nodes.rack.ok", 50));
  }

  // two cycles late: silent from step 5 to step 20, lost in steps 18 and 19
  @Test
  void areLostInTheGapOfALateLinkAndThenReturn() {
    assertEquals(
        "1".repeat(10) + "00" + "1".repeat(38),
        late(bench().scan(7), 6).record("nodes.rack.ok", 50));
  }

  @Test
  void areInTimeAgainWhenCleared() {
    Workbench bench = late(bench().scan(7), 5).scan(20).clear(Place.NODE, "rack");
    assertEquals(List.of(19, 19, 19, 29, 29), reals(bench, "far", 5));
  }

  @Test
  void loseWhatIsUnderWayWhenTheLinkBreaks() {
    Workbench bench = late(bench().scan(7), 5).scan(4).nodeLost("rack"); // step 10 is under way
    assertEquals("1".repeat(6) + "0".repeat(20), bench.record("nodes.rack.ok", 26));
    assertEquals(0, bench.real("far"));
  }

  @ParameterizedTest(
      name = "{0} for {1} ms, then {2} for {3} ms: ok goes at {4} ms, back at {5} ms")
  @CsvSource({
    "lost, 40, lost, 60, 28, 85", // the end of the first leaves the second alone
    "lost, 60, late, 10, 28, 80", // the link is whole again and in time when both are over
    "late, 60, lost, 10, 28, 40", // late still: what step 35 takes arrives in step 40
  })
  void endOneFaultAndKeepTheOther(
      String first, int firstFor, String second, int secondFor, int goes, int back) {
    String scenario =
        """
        scenario: Two faults
        for: T#200ms
        do:
          - {at: T#17ms, fault: {node: rack, mode: %s}, for: T#%dms}
          - {at: T#22ms, fault: {node: rack, mode: %s}, for: T#%dms}
        expect:
          - always: nodes.rack.ok = NOT (scan.time >= T#%dms AND scan.time < T#%dms)
        """;
    Workbench bench = bench();
    String text = scenario.formatted(first, firstFor, second, secondFor, goes - 1, back - 1);
    text = text.replace("mode: late", "mode: late, by: T#5ms");
    var result = bench.run(Workbench.scenario(folder, text));
    assertEquals("PASSED", result.verdict().toString(), () -> result.expectations().toString());
  }

  @Test
  void runAlikeEveryTime() {
    String first =
        late(bench().scan(7), 12).scan(50).nodeLost("rack").scan(50).target().traceSha256();
    String second =
        late(bench().scan(7), 12).scan(50).nodeLost("rack").scan(50).target().traceSha256();
    assertEquals(first, second);
  }

  @Test
  void showTheLossOfASupplyAsTheirInputsDo() {
    String project = PROJECT.replace("made: {type: BOOL, ", "made: {type: BOOL, supply: dc24, ");
    Workbench bench = bench(project + "supplies: {dc24: {}}\n").scan(8).supplyLost("dc24");
    assertEquals("1100000", bench.record("made", 7), "with the exchange of step 10");
    assertTrue(bench.bool("nodes.rack.ok"));
  }

  @ParameterizedTest(name = "{0}, {1}, {2}: {3}")
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      value = {
        "rack | dead | - | 0 | no node fault called `dead`",
        "rake | lost | - | 0 | no node named `rake`",
        "rack | lost | - | 1000 | `lost` takes no time",
        "rack | late | 3 | 0 | `late` takes no `value`",
        "rack | late | - | 60000001 | `late` with a time of T#1m0.001ms",
      })
  void refuseWhatCannotBeSet(String node, String mode, String value, long micros, String message) {
    assertEquals(List.of(message), bench().refusal(Place.NODE, node, mode, value, micros));
  }
}
