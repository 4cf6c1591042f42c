package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Lost time and slow scans, on a clock that says what the test wants. */
class ScanLoopTest {

  /** Says the next scan's lateness and length, then returns to punctual and instant. */
  private static final class SaidClock implements Clock {
    private long skipped;
    private long nanos;

    @Override
    public long awaitNext() {
      long now = skipped;
      skipped = 0;
      return now;
    }

    @Override
    public long performed() {
      long now = nanos;
      nanos = 0;
      return now;
    }
  }

  private final SmallController on =
      SmallController.ofProject(
          """
          project: loop
          scan: T#10ms
          plant_step: T#1ms
          watchdog: T#50ms
          catch_up: T#100ms
          controller:
            inputs:
              after_30: {type: BOOL, filter: T#30ms}
              after_31: {type: BOOL, filter: T#31ms}
            outputs: {q: {type: BOOL}, lamp: {type: BOOL, safe: TRUE}}
            blocks: {timer: {block: TON, IN: q, PT: T#35ms}}
            logic: |
              q := TRUE;
              lamp := FALSE;
          panel: {b: {element: push_button}, q: {element: lamp}, lamp: {element: lamp}}
          wiring:
            - {from: panel.b, to: after_30, name: one}
            - {from: panel.b, to: after_31, name: other}
            - {from: q, to: panel.q}
            - {from: lamp, to: panel.lamp}
          """);
  private final SaidClock clock = new SaidClock();
  private final ScanLoop loop = new ScanLoop(on.rig().engine(), clock, on.rig().project());

  private void scan(long skipped) {
    clock.skipped = skipped;
    loop.next();
  }

  private ScanFailure fails(long skipped, long nanos) {
    clock.skipped = skipped;
    clock.nanos = nanos;
    return assertThrows(ScanFailure.class, loop::next);
  }

  private void assertSafe() {
    assertEquals(0, on.get("q"));
    assertEquals(1, on.get("lamp"));
    int[] cells = {on.symbol("q").index(), on.symbol("lamp").index()};
    long[] published = new long[2];
    on.rig().snapshots().copy(cells, 0, 2, published);
    assertEquals(0, published[0]);
    assertEquals(1, published[1]);
  }

  @Test
  void logicalTimeGoesOnByThePeriodsSkipped() {
    scan(0);
    scan(3);
    assertEquals(40, on.get("scan.time"));
    assertEquals(1, on.get("scan.count"));
    assertEquals(2, on.rig().engine().scans());
  }

  @Test
  void timersSeeThePeriodsSkipped() {
    scan(0);
    scan(0); // the timer starts at 10 ms
    assertEquals(0, on.get("timer.Q"));
    scan(2);
    assertEquals(30, on.get("timer.ET"));
    scan(0);
    assertEquals(1, on.get("timer.Q"));
  }

  @Test
  void theFieldLivesThroughEveryStepOfThePeriodsSkipped() {
    on.set("panel.b", 1);
    scan(0); // followed by ten steps
    scan(2); // preceded by twenty
    assertEquals(1, on.get("after_30"));
    assertEquals(0, on.get("after_31"));
    scan(0);
    assertEquals(1, on.get("after_31"));
  }

  @Test
  void outputsStayAsTheyAreWhileTheFieldCatchesUp() {
    scan(0);
    assertEquals(1, on.get("panel.q"));
    scan(10);
    assertEquals(1, on.get("panel.q"));
    assertEquals(0, on.get("panel.lamp"));
  }

  @Test
  void asMuchLostTimeAsMayBeCaughtUpIsNoFailure() {
    scan(0);
    scan(10);
    assertEquals(110, on.get("scan.time"));
    assertEquals(1, on.get("q"));
  }

  @Test
  void moreLostTimeThanMayBeCaughtUpEndsTheRunSafely() {
    scan(0);
    ScanFailure failure = fails(11, 0);
    assertEquals("no scan for T#110ms, more than catch_up allows (T#100ms)", failure.getMessage());
    assertEquals(1, on.rig().engine().scans());
    assertSafe();
  }

  @Test
  void aScanAsLongAsTheWatchdogAllowsIsNoFailure() {
    clock.nanos = 50_000_000;
    scan(0);
    assertEquals(1, on.get("q"));
  }

  @Test
  void aScanLongerThanTheWatchdogAllowsEndsTheRunSafely() {
    ScanFailure failure = fails(0, 50_001_000);
    assertEquals(
        "a scan took T#50.001ms, longer than the watchdog allows (T#50ms)", failure.getMessage());
    assertSafe();
  }

  @Test
  void virtualTimeIsNeverLateAndTakesNoTime() {
    VirtualClock virtual = new VirtualClock();
    assertEquals(0, virtual.awaitNext());
    assertEquals(0, virtual.performed());
  }
}
