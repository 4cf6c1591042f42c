package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import bufferstop.rig.VirtualRig;
import bufferstop.scenario.BypassCount;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Causes that are bypassed for a while. */
class BypassTest {
  // Source: the check tables of bypass and first-out [common practice, no source]; that a bypass
  // needs an edge, and that the first written of two in one scan wins [project choice].

  private static SmallController stop() {
    return SmallController.of(
        """
        operator:
          c1: {type: BOOL}
          c2: {type: BOOL}
          key1: {type: BOOL}
          key2: {type: BOOL}
          reset: {type: BOOL}
        outputs: {run: {type: BOOL}}
        interlocks:
          stop:
            trip:
              one: {when: c1, bypass: {when: key1, at_most: T#300ms}}
              two: {when: c2, bypass: {when: key2, at_most: T#300ms}}
            reset: reset
            makes_safe: [run]
        alarms: {one_bypassed: {when: stop.one.would_act}}
        logic: |
          run := TRUE;
        """);
  }

  @Test
  void aBypassedCauseDoesNotTripAndItsAlarmStands() { // 4.4 row 1, and 4.2 the bypassed cause
    play(
        stop(),
        """
        t                                0 100 200 300 400
        key1                             0   1   1   0   0
        c1                               0   0   1   0   0
        stop.one.bypassed                0   1   1   0   0
        stop.one.would_act               0   0   1   0   0
        stop.tripped                     0   0   0   0   0
        stop.first.*                     -   -   -   -   -
        run                              1   1   1   1   1
        alarms.stop.one.bypassed.active  0   1   1   0   0
        alarms.active                    0   1   1   0   0
        alarms.one_bypassed.active       0   0   1   0   0
        stop.one.bypasses                0   1   1   1   1
        stop.one.would_acts              0   0   1   1   1
        """);
  }

  @Test
  void aRunCountsItsBypassesAndWhatTheyHeldBack() {
    SmallController on = stop();
    play(
        on,
        """
        key1          0 1 1 1 0 1 0
        c1            0 1 0 1 0 0 0
        stop.tripped  0 0 0 0 0 0 0
        """);
    assertEquals(
        List.of(new BypassCount("stop", "one", 2, 2), new BypassCount("stop", "two", 0, 0)),
        new VirtualRig(on.rig()).bypasses());
  }

  @Test
  void itEndsAtItsLimitAndACauseThatIsStillThereTrips() { // 4.4 row 2
    play(
        stop(),
        """
        t                                0 100 200 399 400 500 600
        key1                             0   1   1   1   1   1   1
        c1                               0   0   1   1   1   1   1
        stop.one.bypassed                0   1   1   1   0   0   0
        stop.tripped                     0   0   0   0   1   1   1
        stop.first.*                     -   -   -   - one one one
        run                              1   1   1   1   0   0   0
        alarms.stop.one.bypassed.active  0   1   1   1   0   0   0
        """);
  }

  @Test
  void itEndsWithItsKey() {
    play(
        stop(),
        """
        key1               0 1 1 0
        c1                 0 1 1 1
        stop.one.bypassed  0 1 1 0
        stop.tripped       0 0 0 1
        """);
  }

  @Test
  void aSecondOneOfTheSameInterlockIsRefusedAndNeedsAFreshEdgeLater() { // 4.4 row 3
    play(
        stop(),
        """
        key1               0 1 1 0 0 0 0
        key2               0 0 1 1 1 0 1
        c2                 0 0 0 0 0 0 0
        stop.one.bypassed  0 1 1 0 0 0 0
        stop.two.bypassed  0 0 0 0 0 0 1
        stop.two.bypasses  0 0 0 0 0 0 1
        """);
  }

  @Test
  void ofTwoInOneScanTheFirstWrittenIsTaken() {
    play(
        stop(),
        """
        key1             0 1
        key2             0 1
        stop.*.bypassed  - one
        """);
  }

  @Test
  void theOtherCausesActAsEver() {
    play(
        stop(),
        """
        key1          0 1 1
        c1            0 1 1
        c2            0 0 1
        stop.tripped  0 0 1
        stop.first.*  - - two
        """);
  }

  @Test
  void aKeyThatIsTurnedAtTheStartBypassesNothing() { // 4.4 row 4
    play(
        stop(),
        """
        key1               1 1 0 1
        c1                 1 1 0 0
        reset              0 0 0 0
        stop.one.bypassed  0 0 0 1
        stop.tripped       1 1 1 1
        """);
  }

  @Test
  void noNameOfAUserMeetsTheAlarmMadeByItself() {
    assertEquals(
        0,
        SmallController.problemsOf(
                """
                operator: {c: {type: BOOL}, key: {type: BOOL}}
                interlocks:
                  stop:
                    trip: {one: {when: c, bypass: {when: key, at_most: T#1s}}}
                    reset: key
                alarms: {stop: {when: c}, stop_one_bypassed: {when: c}, one: {when: c}}
                """)
            .size());
  }

  @Test
  void aPermissiveIsBypassedAlike() {
    SmallController on =
        SmallController.of(
            """
            operator: {p: {type: BOOL}, key: {type: BOOL}}
            interlocks:
              permit: {permissive: {here: {when: p, bypass: {when: key, at_most: T#1h}}}}
            """);
    play(
        on,
        """
        p                      1 0    0 0
        key                    0 0    1 0
        permit.ok              1 0    1 0
        permit.here.would_act  0 0    1 0
        permit.first.*         - here - here
        """);
  }
}
