package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.rig.Workbench;
import bufferstop.spi.Port;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Pulses from a plant at inputs with a filter; the plant steps ten times a scan. */
class FilteredInputsTest {
  private static final String PROJECT =
      """
      project: Filters
      scan: T#10ms
      plant_step: T#1ms
      controller:
        inputs:
          bare: {type: BOOL}
          filtered: {type: BOOL, filter: T#%dms}
      plants:
        p: {model: script, with: {}}
      wiring:
        - {from: p.x, to: bare}
        - {from: p.x, to: filtered}
      """;

  @TempDir Path folder;

  private Workbench bench(ScriptedModel model, long filterMillis) {
    return Workbench.with(folder, PROJECT.formatted(filterMillis), model);
  }

  // The value of step s arrives at the wire's end in the step after it and is read by the scan at
  // or after s + 1 ms; the filter shows it when it lasted its time: F6.4a [derived].
  @ParameterizedTest(name = "steps {0} to {1}, filter {2} ms: bare {3}, filtered {4}")
  @CsvSource({
    "12, 29, 3, 001100, 001100",
    "19, 38, 3, 001100, 000110", // began 1 ms before a scan, which the filter lets pass
    "12, 31, 20, 001100, 000011", // 20 ms are enough for 20 ms
    "12, 30, 20, 001100, 000000", // 19 ms are not
    "18, 19, 3, 001000, 000000", // 2 ms, caught by the scan only without the filter
    "17, 19, 3, 001000, 001000",
    "12, 17, 3, 000000, 001000", // 6 ms, gone before the scan, and shifted onto it by the filter
    "11, 16, 3, 000000, 000000", // 6 ms, gone before the scan even so
  })
  void dropShortPulsesAndShiftLongOnes(
      long from, long to, long filterMillis, String bare, String filtered) {
    assertEquals(
        bare, bench(ScriptedModel.pulse("script", from, to), filterMillis).record("bare", 6));
    assertEquals(
        filtered,
        bench(ScriptedModel.pulse("script", from, to), filterMillis).record("filtered", 6));
  }

  // A contact that makes for 3 ms and breaks for 7 ms once a scan, in all ten phases to the scan.
  @ParameterizedTest(name = "phase {0} ms")
  @CsvSource({"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"})
  void hideChatterThatTheBareInputShowsInSomePhases(int phase) {
    ScriptedModel chatter =
        new ScriptedModel("script", p -> p.out[0] = (p.step + phase) % 10 < 3 ? 1 : 0)
            .output(Port.contact("x", ""));
    boolean caught = (9 + phase) % 10 < 3; // the scan reads the last but one step before it
    assertEquals((caught ? "1" : "0").repeat(6), bench(chatter, 4).scan(1).record("bare", 6));
    assertEquals("0".repeat(6), bench(chatter, 4).scan(1).record("filtered", 6));
  }
}
