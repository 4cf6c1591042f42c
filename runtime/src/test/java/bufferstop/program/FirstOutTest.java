package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** Which came first, and when: of the causes of an interlock, and of the interlocks of a group. */
class FirstOutTest {
  // Source: FO-1 and its checks [common practice, no source]; ties [project choice].

  private static SmallController line() {
    return SmallController.of(
        """
        operator:
          c1: {type: BOOL}
          c2: {type: BOOL}
          low: {type: BOOL}
          reset: {type: BOOL}
        interlocks:
          feed: {trip: {one: c1, two: c2}, reset: reset, group: line}
          guard: {interlock: NOT low, group: line}
          pump: {trip: feed.tripped OR low, reset: reset, group: LINE}
        """);
  }

  @Test
  void theTimeOfTheFirstOutIsKeptWithIt() { // FO-1
    play(
        line(),
        """
        t                0 100 200 300 400 500 600 700 800
        c1               0   0   1   1   1   0   0   0   0
        c2               0   0   0   1   1   1   0   0   0
        reset            0   0   0   0   1   0   0   1   0
        feed.tripped     0   0   1   1   1   1   1   0   0
        feed.first.*     -   - one one one one one   -   -
        feed.first_time  0   0 200 200 200 200 200   0   0
        """);
  }

  @Test
  void theFirstOfSeveralThatFollowEachOtherIsKeptUntilNoneActs() {
    play(
        line(),
        """
        t                        0 100 200 300 400 500 600
        c1                       0   0   0   1   0   0   0
        low                      0   1   0   0   0   0   0
        reset                    0   0   0   0   0   1   0
        guard.ok                 1   0   1   1   1   1   1
        pump.tripped             0   1   1   1   1   0   0
        feed.tripped             0   0   0   1   1   0   0
        groups.line.first_time   0 100 100 100 100   0   0
        groups.line.first.guard  0   1   1   1   1   0   0
        groups.line.first.pump   0   1   1   1   1   0   0
        groups.line.first.feed   0   0   0   0   0   0   0
        """);
  }

  @Test
  void whatFollowsInTheSameScanIsEquallyFirst() {
    play(
        line(),
        """
        c2                       0 1 1
        groups.line.first.feed   0 1 1
        groups.line.first.pump   0 1 1
        groups.line.first.guard  0 0 0
        """);
  }
}
