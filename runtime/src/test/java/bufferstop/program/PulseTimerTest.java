package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** TP, scan by scan. */
class PulseTimerTest {
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
            blocks: {b: {block: TP, IN: IN, PT: PT%s}}
            """
                .formatted(option))
        .set("PT", presetMillis);
  }

  @Test
  void givesAPulseOfThePresetWhateverInDoesMeanwhile() { // TP-1
    play(
        timer(300),
        """
        t     0 100 200 300 400 500 600 700 800 900 1000 1100 1200
        IN    0   1   1   1   1   1   0   1   0   1    0    0    0
        b.Q   0   1   1   1   0   0   0   1   1   1    0    0    0
        b.ET  0   0 100 200 300 300   0   0 100 200    0    0    0
        """);
  }

  @Test
  void needsAFreshEdgeForASecondPulse() { // TP-2
    play(
        timer(300),
        """
        t     0 100 200 300 400 500 600 700
        IN    0   1   0   1   1   1   0   1
        b.Q   0   1   1   1   0   0   0   1
        b.ET  0   0 100 200 300 300   0   0
        """);
  }

  @Test
  void startsAgainWithoutAGapOnAnEdgeInTheScanOfExpiry() { // TP-3
    play(
        timer(300),
        """
        t     0 100 200 300 400 500 600 700
        IN    0   1   0   0   1   1   1   1
        b.Q   0   1   1   1   1   1   1   0
        b.ET  0   0 100 200   0 100 200 300
        """);
  }

  @Test
  void givesNoPulseWithoutAPreset() { // TP-4
    play(
        timer(0),
        """
        t     0 100 200 300 400
        IN    0   1   1   0   1
        b.Q   0   0   0   0   0
        b.ET  0   0   0   0   0
        """);
  }

  @Test
  void takesAnInThatIsTrueInTheFirstScanForAnEdge() { // TP-5
    play(
        timer(300),
        """
        t     0 100 200 300 400
        IN    1   1   1   1   0
        b.Q   1   1   1   0   0
        b.ET  0 100 200 300   0
        """);
  }

  @Test
  void heedsALongerPresetWhileThePulseRuns() { // TP-6
    play(
        timer(300),
        """
        t       0 100 200 300 400 500 600 700
        IN      0   1   1   1   1   1   1   0
        PT    300 300 300 500 500 500 500 500
        b.Q     0   1   1   1   1   1   0   0
        b.ET    0   0 100 200 300 400 500   0
        """);
  }

  @Test
  void keepsTheLengthOfItsStartWhenLatched() { // TP-7
    play(
        latchedTimer(300),
        """
        t       0 100 200 300 400 500 600 700
        IN      0   1   1   1   1   1   1   0
        PT    300 300 300 500 500 500 500 500
        b.Q     0   1   1   1   0   0   0   0
        b.ET    0   0 100 200 300 300 300   0
        """);
  }

  @Test
  void aLatchedPulseThatStartsInTheScanOfExpiryTakesTheNewLength() {
    play(
        latchedTimer(200),
        """
        t       0 100 200 300 400 500
        IN      1   0   1   1   1   1
        PT    200 200 300 100 100 100
        b.Q     1   1   1   1   1   0
        b.ET    0 100   0 100 200 300
        """);
  }

  @Test
  void aNegativePresetCountsAsNone() {
    play(
        timer(-100),
        """
        IN    0 1 1 0 1
        b.Q   0 0 0 0 0
        b.ET  0 0 0 0 0
        """);
  }
}
