package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Real time by deadlines; only bounds that hold on any machine, however busy, are checked. */
class RealClockTest {
  private static final long PERIOD_NANOS = 1_000_000;

  private final ScanStatistics statistics = new ScanStatistics();
  private final RealClock clock = new RealClock(PERIOD_NANOS / 1000, statistics);

  private static void busyFor(long nanos) {
    long began = System.nanoTime();
    while (System.nanoTime() - began < nanos) {
      Thread.onSpinWait();
    }
  }

  @Test
  void theFirstScanIsDueAtOnce() {
    assertEquals(0, clock.awaitNext());
  }

  @Test
  void noScanIsEarly() {
    long began = System.nanoTime();
    clock.awaitNext();
    long periods = 0;
    for (int i = 0; i < 50; i++) {
      busyFor(i * PERIOD_NANOS / 50); // the wait begins ever closer to the deadline
      periods += 1 + clock.awaitNext();
      long elapsed = System.nanoTime() - began;
      assertTrue(elapsed >= periods * PERIOD_NANOS, "scan " + i + " after " + elapsed + " ns");
    }
  }

  @Test
  void latenessDoesNotAddUp() {
    clock.awaitNext();
    long firstWasDueBy = System.nanoTime();
    long periods = 1;
    for (int i = 0; i < 50; i++) {
      busyFor(PERIOD_NANOS * 6 / 5);
      long waitedFrom = System.nanoTime();
      periods += 1 + clock.awaitNext();
      // the deadline after this scan lies ahead of the moment the wait began
      assertTrue(firstWasDueBy + periods * PERIOD_NANOS - waitedFrom > 0, "behind in scan " + i);
    }
  }

  @Test
  void aScanThatTakesSeveralPeriodsSkipsThemAndIsCounted() {
    clock.awaitNext();
    busyFor(5 * PERIOD_NANOS);
    assertTrue(clock.performed() >= 5 * PERIOD_NANOS);
    long skipped = clock.awaitNext();
    assertTrue(skipped >= 4, "skipped " + skipped);
    clock.performed();
    assertEquals(skipped, statistics.skipped());
    assertEquals(2, statistics.scans());
    assertEquals(2, statistics.lateness().getTotalCount());
    assertTrue(statistics.lateness().getMaxValue() >= 4 * PERIOD_NANOS);
    assertTrue(statistics.execution().getMaxValue() >= 5 * PERIOD_NANOS);
  }
}
