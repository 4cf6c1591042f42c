package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** TON, scan by scan. */
class OnDelayTest {
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
            blocks: {b: {block: TON, IN: IN, PT: PT%s}}
            """
                .formatted(option))
        .set("PT", presetMillis);
  }

  @Test
  void turnsOnWhenInHasLastedThePresetAndOffAtOnce() { // TON-1
    play(
        timer(300),
        """
        t     0 100 200 300 400 500 600 700 800 900 1000
        IN    0   1   1   1   1   1   0   1   1   0    1
        b.Q   0   0   0   0   1   1   0   0   0   0    0
        b.ET  0   0 100 200 300 300   0   0 100   0    0
        """);
  }

  @Test
  void passesInStraightThroughWithoutAPreset() { // TON-2
    play(
        timer(0),
        """
        t     0 100 200 300 400
        IN    0   1   1   0   1
        b.Q   0   1   1   0   1
        b.ET  0   0   0   0   0
        """);
  }

  @Test
  void timesAnInThatIsTrueInTheFirstScan() { // TON-3
    play(
        timer(300),
        """
        t     0 100 200 300
        IN    1   1   1   1
        b.Q   0   0   0   1
        b.ET  0 100 200 300
        """);
  }

  @Test
  void isNeverEarlyWhenScansAreUneven() { // TON-4
    play(
        timer(300),
        """
        t     0 90 210 385 390 600 610
        IN    0  1   1   1   1   1   0
        b.Q   0  0   0   0   1   1   0
        b.ET  0  0 120 295 300 300   0
        """);
  }

  @Test
  void heedsALongerPresetWhileTimingButNotAfterExpiry() { // TON-5
    play(
        timer(300),
        """
        t       0 100 200 300 400 500 600 700 800
        IN      0   1   1   1   1   1   1   1   0
        PT    300 300 300 500 500 500 500 900 900
        b.Q     0   0   0   0   0   0   1   1   0
        b.ET    0   0 100 200 300 400 500 500   0
        """);
  }

  @Test
  void keepsThePresetOfItsStartWhenLatched() { // TON-6
    play(
        latchedTimer(300),
        """
        t       0 100 200 300 400 500 600 700 800
        IN      0   1   1   1   1   1   1   1   0
        PT    300 300 300 500 500 500 500 900 900
        b.Q     0   0   0   0   1   1   1   1   0
        b.ET    0   0 100 200 300 300 300 300   0
        """);
  }

  @Test
  void heedsAShorterPresetWhileTiming() { // TON-7
    play(
        timer(500),
        """
        t       0 100 200 300 400 500 600 700
        IN      0   1   1   1   1   1   1   0
        PT    500 500 500 150 150 150 150 150
        b.Q     0   0   0   1   1   1   1   0
        b.ET    0   0 100 150 150 150 150   0
        """);
  }

  @Test
  void keepsALongerPresetOfItsStartWhenLatched() { // TON-8
    play(
        latchedTimer(500),
        """
        t       0 100 200 300 400 500 600 700
        IN      0   1   1   1   1   1   1   0
        PT    500 500 500 150 150 150 150 150
        b.Q     0   0   0   0   0   0   1   0
        b.ET    0   0 100 200 300 400 500   0
        """);
  }

  @Test
  void aNegativePresetCountsAsNone() {
    play(
        timer(-100),
        """
        IN    0 1 1 0 1
        b.Q   0 1 1 0 1
        b.ET  0 0 0 0 0
        """);
  }
}
