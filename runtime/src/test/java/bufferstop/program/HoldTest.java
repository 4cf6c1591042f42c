package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** A sequence that stands still and goes on. */
class HoldTest {
  // Source: the words hold and restart, ISA-88.01 [from memory, not re-read]; all behaviour by scan
  // [project choice].

  private static SmallController chart(String hold) {
    return SmallController.of(
        """
        operator: {go: {type: BOOL}, pause: {type: BOOL}, again: {type: BOOL}, off: {type: BOOL}}
        outputs: {n: {type: BOOL}, s: {type: BOOL}, sl: {type: BOOL}, sd: {type: BOOL}}
        internal: {p: {type: BOOL}}
        sequences:
          seq:
            abort: {when: off, to: out}
            hold: {%s}
            steps:
              A: {initial: TRUE}
              B: {do: [N n, S s, SL T#300ms sl, SD T#300ms sd, P p], within: T#250ms}
              C: {at_least: T#200ms}
              out: {}
            transitions:
              - {from: A, to: B, when: go}
              - {from: B, to: C, when: go AND seq.B.T >= T#200ms}
              - {from: C, to: A, when: go}
              - {from: out, to: A, when: go}
        """
            .formatted(hold));
  }

  @Test
  void withoutRestartItEndsWithItsCondition() {
    play(
        chart("when: pause"),
        """
        t           0 100 200 300 400 500 600 700 800
        go          0   1   1   1   1   1   1   1   1
        pause       0   0   0   1   1   0   0   0   0
        off         0   0   0   0   0   0   0   0   0
        seq.held    0   0   0   1   1   0   0   0   0
        seq.*.X     A   B   B   B   B   C   C   A   B
        seq.B.T     0   0 100 100 100 200 200 200   0
        seq.C.T     0   0   0   0   0   0 100 200 200
        n           0   1   1   0   0   0   0   0   1
        s           0   1   1   0   0   1   1   1   1
        """);
  }

  @Test
  void withRestartItEndsAtAFreshEdgeAfterItsConditionHasGone() {
    play(
        chart("when: pause, restart: again"),
        """
        t           0 100 200 300 400 500 600 700 800
        go          1   0   0   0   0   0   0   0   0
        pause       0   0   1   1   0   0   0   0   0
        again       0   0   1   0   1   1   0   1   0
        seq.held    0   0   1   1   0   0   0   0   0
        seq.B.T     0 100 100 100 200 300 400 500 600
        seq.B.late  0   0   0   0   0   1   1   1   1
        """);
  }

  @Test
  void aRestartThatIsHeldIsNone() {
    play(
        chart("when: pause, restart: again"),
        """
        go        1 0 0 0 0 0 0
        pause     0 1 1 0 0 0 0
        again     0 0 1 1 1 0 1
        seq.held  0 1 1 1 1 1 0
        """);
  }

  @Test
  void timesOfStoredActionsStandStillTooAndPulsesDoNotComeAgain() {
    play(
        chart("when: pause"),
        """
        t         0 100 200 300 400 500 600 700 800
        go        1   0   0   0   0   0   0   0   0
        pause     0   0   1   1   1   0   0   0   0
        seq.held  0   0   1   1   1   0   0   0   0
        n         1   1   0   0   0   1   1   1   1
        s         1   1   0   0   0   1   1   1   1
        sl        1   1   0   0   0   1   0   0   0
        sd        0   0   0   0   0   0   1   1   1
        p         1   0   0   0   0   0   0   0   0
        """);
  }

  @Test
  void anAbortWinsOverAHoldAndForgetsIt() {
    play(
        chart("when: pause, restart: again"),
        """
        t          0 100 200 300 400 500 600
        go         1   0   0   0   0   0   1
        pause      0   1   0   0   0   0   0
        off        0   0   0   1   1   0   0
        seq.held   0   1   1   0   0   0   0
        seq.*.X    B   B   B out out out   A
        s          1   0   0   0   0   0   0
        """);
  }

  @Test
  void aHoldThatIsStillAskedForAfterAnAbortHoldsTheAbortStep() {
    play(
        chart("when: pause"),
        """
        go         1 0   0   1   1 1
        pause      0 1   1   1   1 0
        off        0 0   1   0   0 0
        seq.held   0 1   0   1   1 0
        seq.*.X    B B out out out A
        """);
  }

  @Test
  void statementsHaveTheirFinalScanWhenTheHoldBegins() {
    SmallController chart =
        SmallController.of(
            """
            operator: {pause: {type: BOOL}}
            outputs: {pump: {type: BOOL}}
            internal: {runs: {type: INT}}
            sequences:
              seq:
                hold: {when: pause}
                actions:
                  pumping: |
                    pump := seq.pumping.Q;
                    runs := runs + 1;
                steps: {A: {initial: TRUE, do: [N pumping]}, B: {}}
                transitions: [{from: A, to: B, when: "FALSE"}, {from: B, to: A, when: "TRUE"}]
            """);
    play(
        chart,
        """
        pause  0 0 1 1 0
        pump   1 1 0 0 1
        runs   1 2 3 3 4
        """);
  }

  @Test
  void aHoldThatIsThereAtTheStartCounts() {
    play(
        chart("when: pause"),
        """
        t         0 100 200 300
        go        1   1   1   1
        pause     1   1   0   0
        seq.held  1   1   0   0
        seq.*.X   A   A   B   B
        seq.A.T   0   0 100 100
        """);
  }
}
