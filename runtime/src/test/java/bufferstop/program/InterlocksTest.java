package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** A drive with a permissive p, a guard i that trips it, a start pulse and a reset. */
class InterlocksTest {
  // Source: the check table of the drive and FO-1 [common practice, no source]; causes of one scan
  // are equally first [project choice].

  private static SmallController drive() {
    return SmallController.of(
        """
        operator: {p: {type: BOOL}, i: {type: BOOL}, start: {type: BOOL}, reset: {type: BOOL}}
        outputs: {run: {type: BOOL}}
        interlocks:
          permit: {permissive: {p_holds: p, not_tripped: NOT guard.tripped}}
          guard: {trip: {i_lost: NOT i}, reset: reset, makes_safe: [run]}
        logic: |
          run := start AND permit.ok OR run;
        """);
  }

  @Test
  void aMissingPermissiveForbidsTheStartAndIsNamed() {
    play(
        drive(),
        """
        p               0       0       1 0
        i               1       1       1 1
        start           0       1       0 0
        permit.ok       0       0       1 0
        permit.first.*  p_holds p_holds - p_holds
        run             0       0       0 0
        """);
  }

  @Test
  void aTripForbidsTheStartAndIsNamed() {
    play(
        drive(),
        """
        p              1      1
        i              0      0
        start          0      1
        guard.tripped  1      1
        guard.first.*  i_lost i_lost
        run            0      0
        """);
  }

  @Test
  void aLostPermissiveLetsWhatRunsGoOn() {
    play(
        drive(),
        """
        p          1 1 0 0
        i          1 1 1 1
        start      0 1 0 0
        permit.ok  1 1 0 0
        run        0 1 1 1
        """);
  }

  @Test
  void aTripStopsInTheSameScanAndStaysUntilResetWithoutRestarting() {
    play(
        drive(),
        """
        p              1 1 1 1 1 1 1 1 1 1
        i              1 1 1 0 1 1 1 1 1 1
        start          0 1 0 0 0 0 0 0 1 0
        reset          0 0 0 0 0 0 1 0 0 0
        guard.tripped  0 0 0 1 1 1 0 0 0 0
        run            0 1 1 0 0 0 0 0 1 1
        """);
  }

  @Test
  void aResetIsRefusedWhileTheCauseIsThere() {
    play(
        drive(),
        """
        p              1 1 1 1 1
        i              1 0 0 1 1
        reset          0 0 1 0 0
        guard.tripped  0 1 1 1 1
        """);
  }

  @Test
  void aResetThatIsHeldIsNoneAndNeedsAFreshEdge() {
    play(
        drive(),
        """
        p              1 1 1 1 1 1 1
        i              1 1 0 1 1 1 1
        reset          1 1 1 1 1 0 1
        guard.tripped  0 0 1 1 1 1 0
        """);
  }

  private static SmallController twoCauses() {
    return SmallController.of(
        """
        operator: {c1: {type: BOOL}, c2: {type: BOOL}, reset: {type: BOOL}}
        interlocks:
          line: {trip: {first_cause: c1, second_cause: c2}, reset: reset}
        """);
  }

  @Test
  void theFirstCauseIsKeptUntilTheReset() { // FO-1
    play(
        twoCauses(),
        """
        c1            0 0 1           1           1           0           0           0 0
        c2            0 0 0           1           1           1           0           0 0
        reset         0 0 0           0           1           0           0           1 0
        line.tripped  0 0 1           1           1           1           1           0 0
        line.first.*  - - first_cause first_cause first_cause first_cause first_cause - -
        """);
  }

  @Test
  void causesOfOneScanAreBothFirst() {
    play(
        twoCauses(),
        """
        c1            0 1                        0
        c2            0 1                        0
        line.first.*  - first_cause,second_cause first_cause,second_cause
        """);
  }

  @Test
  void aSecondTripShowsOnlyTheNewCause() {
    play(
        twoCauses(),
        """
        c1            0 1           0           0 0            0
        c2            0 0           0           0 1            0
        reset         0 0           0           1 0            0
        line.tripped  0 1           1           0 1            1
        line.first.*  - first_cause first_cause - second_cause second_cause
        """);
  }

  @Test
  void aResetInTheScanOfANewCauseIsRefused() {
    play(
        twoCauses(),
        """
        c1            1           0           0
        c2            0           1           0
        reset         0           1           0
        line.tripped  1           1           1
        line.first.*  first_cause first_cause first_cause
        """);
  }

  @Test
  void anInterlockHoldsItsOutputForAsLongAsItsConditionIsMissing() {
    SmallController gate =
        SmallController.of(
            """
            operator: {beam: {type: BOOL}, open: {type: BOOL}}
            outputs: {valve: {type: BOOL}}
            interlocks:
              guard: {interlock: {wagon_below: beam}, makes_safe: [valve]}
            logic: |
              valve := open;
            """);
    play(
        gate,
        """
        beam           1 1 0           1 1
        open           0 1 1           1 0
        guard.ok       1 1 0           1 1
        guard.first.*  - - wagon_below - -
        valve          0 1 0           1 0
        """);
  }
}
