package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Fault.Place;
import bufferstop.rig.Workbench;
import bufferstop.spi.Port;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Faults seen from the far end of a wire: at inputs, at circuits, at plants. */
class FaultyWiresTest {
  // a plant step a scan; what an image shows was delivered before the plant's step of that scan
  private static final String PROJECT =
      """
      project: Wires
      scan: T#1ms
      plant_step: T#1ms
      controller:
        inputs:
          made: {type: BOOL}
          broken: {type: BOOL}
          level: {type: REAL}
        outputs:
          feed: {type: BOOL, safe: FALSE}
        logic: feed := TRUE;
      plants:
        p: {model: script, with: {}}
      panel:
        go: {element: push_button}
        stop: {element: push_button, contact: normally_closed}
      circuits:
        first: feed AND panel.stop
        second: circuits.first
      wiring:
        - {from: panel.go, to: made}
        - {from: panel.stop, to: broken}
        - {from: p.level, to: level}
        - {from: circuits.second, to: p.close, name: contactor}
      """;

  @TempDir Path folder;

  private Workbench bench() {
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = 100 + p.step)
            .input(Port.contact("close", "contactor").orElse(Double.NaN))
            .output(Port.quantity("level", "m", "counts its steps"));
    return Workbench.with(folder, PROJECT, model).scan(5);
  }

  // Source: what a fault looks like at the input, rail-and-sensors 8.3 [project choice]: open never
  // lets current pass, whatever the contact sense; short always does.
  @ParameterizedTest(name = "{0}: {1} reads {2}, pressed {3}")
  @CsvSource({
    "open, made, 0, 0",
    "open, broken, 0, 0",
    "short, made, 1, 1",
    "short, broken, 1, 1",
    "inverted, made, 1, 0",
    "inverted, broken, 0, 1",
    "stuck, made, 0, 0",
    "stuck, broken, 1, 1",
  })
  void showAtNormallyOpenAndNormallyClosedContacts(
      String mode, String input, String rest, String pressed) {
    Workbench bench = bench().wireFault(input, mode).scan(1);
    assertEquals(rest, bench.record(input, 1));
    bench.press("go").press("stop").scan(1);
    assertEquals(pressed, bench.record(input, 1));
  }

  @ParameterizedTest
  @CsvSource({"TRUE, 1", "FALSE, 0"})
  void stickAtTheValueGiven(String value, String reads) {
    Workbench bench = bench().fault(Place.WIRE, "made", "stuck", value, 0).scan(1);
    assertEquals(reads.repeat(3), bench.record("made", 3));
  }

  @Test
  void freezeAQuantityAtItsPresentValue() {
    Workbench bench = bench();
    double before = bench.scan(1).real("level");
    bench.wireFault("level", "stuck").scan(10);
    assertEquals(before + 1, bench.real("level")); // what the wire delivered in the last scan
  }

  @Test
  void delayAQuantityByWholeSteps() {
    Workbench bench = bench().fault(Place.WIRE, "level", "delay", null, 3_000).scan(10);
    double sound = bench().scan(10).real("level");
    assertEquals(sound - 3, bench.real("level"));
  }

  @Test
  void delayByTheNextWholeStepWhenTheTimeIsNone() {
    Workbench bench = bench().fault(Place.WIRE, "level", "delay", null, 2_001).scan(10);
    assertEquals(bench().scan(10).real("level") - 3, bench.real("level"));
  }

  @Test
  void breakAQuantityToZero() {
    assertEquals(0, bench().wireFault("level", "open").scan(2).real("level"));
  }

  @Test
  void healWhenCleared() {
    Workbench bench = bench().wireFault("broken", "open").scan(2);
    assertFalse(bench.bool("broken"));
    assertTrue(bench.clear(Place.WIRE, "broken").scan(2).bool("broken"));
  }

  @Test
  void obeyTheLastOfTwoFaults() {
    Workbench bench = bench().wireFault("made", "short").wireFault("made", "open");
    assertEquals("0000", bench.scan(1).record("made", 4));
  }

  @Test
  void actOnTheContactThatACircuitReads() {
    Workbench bench = bench();
    assertTrue(bench.bool("feed.contact"));
    assertTrue(bench.bool("p.close"));
    bench.wireFault("feed", "open").scan(1);
    assertTrue(bench.bool("feed"), "the controller still says so");
    assertFalse(bench.bool("feed.contact"));
    assertFalse(bench.bool("p.close"), "circuits follow in the same step, in their order");
  }

  @Test
  void weldTheContactorWhateverTheCircuitSays() {
    Workbench bench = bench().fault(Place.WIRE, "contactor", "stuck", "TRUE", 0).press("stop");
    bench.scan(2);
    assertFalse(bench.bool("circuits.second"));
    assertTrue(bench.bool("p.close"));
  }

  @Test
  void chatterAlikeWhoeverElseIsWired() {
    String more = PROJECT.replace("  outputs:", "    also: {type: BOOL}\n  outputs:");
    more = more.replace("wiring:\n", "wiring:\n  - {from: panel.go, to: also}\n");
    String alone = chatter(bench(), 1);
    Workbench crowded =
        Workbench.with(
                folder,
                more,
                new ScriptedModel("script", p -> p.out[0] = 0)
                    .input(Port.contact("close", "contactor").orElse(0))
                    .output(Port.quantity("level", "m", "nothing")))
            .scan(5);
    assertEquals(alone, chatter(crowded.wireFault("also", "chatter"), 1));
    assertTrue(alone.contains("1") && alone.contains("0"), alone);
    assertNotEquals(alone, chatter(bench(), 7), "the time between flips matters");
  }

  @Test
  void chatterOnceInTheTimeGivenOnAverage() {
    // 20 000 steps of 1 ms, once in 20 ms: binomial, mean 1000, standard deviation 30.8, four of it
    Workbench bench = bench().fault(Place.WIRE, "made", "chatter", null, 20_000);
    String seen = bench.record("made", 20_000);
    int flips = 0;
    for (int i = 1; i < seen.length(); i++) {
      flips += seen.charAt(i) == seen.charAt(i - 1) ? 0 : 1;
    }
    assertEquals(1000, flips, 4 * 30.8);
  }

  private static String chatter(Workbench bench, int everyMillis) {
    return bench
        .fault(Place.WIRE, "made", "chatter", null, everyMillis * 3_000L)
        .record("made", 300);
  }

  @ParameterizedTest(name = "{1} on {0}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "level | chatter | `chatter` does not fit wire `level`, which carries a quantity",
        "level | short | `short` does not fit wire `level`, which carries a quantity",
        "made | ajar | no wire fault called `ajar`",
        "maid | open | no wire named `maid`",
      })
  void refuseWhatCannotBeSet(String wire, String mode, String message) {
    assertEquals(List.of(message), bench().refusal(Place.WIRE, wire, mode, null, 0));
  }
}
