package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** TOF, scan by scan. */
class OffDelayTest {
  // Source: IEC 61131-3:2003, Table 37 [from memory, not re-read]; a preset that changes while
  // timing acts at once until the first expiry, unless latched; the starting scan shows ET = 0
  // [project choice].

  private static SmallController timer(long presetMillis) {
    return timer("", presetMillis);
  }

  private static SmallController latchedTimer(long presetMillis) {
    return timer(", LATCHED: TRUE", presetMillis);
  }

  private static SmallController timer(String option, long presetMillis) {
    return SmallController.of(
            """
            operator: {IN: {type: BOOL}, PT: {type: TIME}}
            blocks: {b: {block: TOF, IN: IN, PT: PT%s}}
            """
                .formatted(option))
        .set("PT", presetMillis);
  }

  @Test
  void turnsOffWhenInHasBeenGoneForThePresetAndStaysOnWhenItComesBack() { // TOF-1
    play(
        timer(300),
        """
        t     0 100 200 300 400 500 600 700 800 900 1000 1100 1200 1300 1400
        IN    0   1   1   0   0   0   0   1   0   0    1    0    0    0    0
        b.Q   0   1   1   1   1   1   0   1   1   1    1    1    1    1    0
        b.ET  0   0   0   0 100 200 300   0   0 100    0    0  100  200  300
        """);
  }

  @Test
  void passesInStraightThroughWithoutAPreset() { // TOF-2
    play(
        timer(0),
        """
        t     0 100 200 300 400
        IN    1   0   0   1   0
        b.Q   1   0   0   1   0
        b.ET  0   0   0   0   0
        """);
  }

  @Test
  void staysOffUntilInHasBeenTrueOnce() { // TOF-3
    play(
        timer(300),
        """
        t     0 100 200 300 400 500 600
        IN    0   0   1   0   0   0   0
        b.Q   0   0   1   1   1   1   0
        b.ET  0   0   0   0 100 200 300
        """);
  }

  @Test
  void heedsALongerPresetWhileTiming() { // TOF-4
    play(
        timer(300),
        """
        t       0 100 200 300 400 500 600 700
        IN      1   0   0   0   0   0   0   1
        PT    300 300 300 500 500 500 500 500
        b.Q     1   1   1   1   1   1   0   1
        b.ET    0   0 100 200 300 400 500   0
        """);
  }

  @Test
  void keepsThePresetOfTheFallWhenLatched() { // TOF-5
    play(
        latchedTimer(300),
        """
        t       0 100 200 300 400 500 600 700
        IN      1   0   0   0   0   0   0   1
        PT    300 300 300 500 500 500 500 500
        b.Q     1   1   1   1   0   0   0   1
        b.ET    0   0 100 200 300 300 300   0
        """);
  }

  @Test
  void aNegativePresetCountsAsNone() {
    play(
        timer(-100),
        """
        IN    1 0 0 1 0
        b.Q   1 0 0 1 0
        b.ET  0 0 0 0 0
        """);
  }
}
