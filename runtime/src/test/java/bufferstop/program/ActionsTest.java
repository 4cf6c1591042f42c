package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What steps do to their targets. */
class ActionsTest {
  // Source: IEC 61131-3:2003, 2.6.4.5 and Table 45 [re-read], Figure 15 [from memory, not re-read].
  // Step X is active while x is TRUE, step Z resets while r is TRUE: two branches side by side.

  private static SmallController branches() {
    return SmallController.of(
            """
            operator: {x: {type: BOOL}, r: {type: BOOL}}
            internal: {n: {type: BOOL}, s: {type: BOOL}}
            sequences:
              seq:
                steps:
                  begin: {initial: TRUE}
                  W: {}
                  X: {do: [N n, S s]}
                  Y: {}
                  Z: {do: [R n, R s]}
                transitions:
                  - {from: begin, to: [W, Y], when: "TRUE"}
                  - {from: W, to: X, when: x}
                  - {from: X, to: W, when: NOT x}
                  - {from: Y, to: Z, when: r}
                  - {from: Z, to: Y, when: NOT r}
            """)
        .scan();
  }

  @Test
  void nonStoredLastsAsLongAsItsStepAndStoredUntilItsReset() { // ACT-1, rows N and S
    play(
        branches(),
        """
        t  100 200 300 400 500 600 700 800 900 1000 1100
        x    0   1   1   1   1   1   1   0   0    0    0
        r    0   0   0   0   0   0   0   0   0    1    0
        n    0   1   1   1   1   1   1   0   0    0    0
        s    0   1   1   1   1   1   1   1   1    0    0
        """);
  }

  @Test
  void storedNeedsItsStepForOneScanOnly() { // ACT-2 and ACT-3, rows N and S
    play(
        branches(),
        """
        x  0 1 0 0 0 1 0 0
        r  0 0 0 1 0 0 0 1
        n  0 1 0 0 0 1 0 0
        s  0 1 1 0 0 1 1 0
        """);
  }

  @Test
  void resetWinsOverStoredAndNonStoredInItsScanOnly() { // ACT-4 and ACT-5
    play(
        branches(),
        """
        t  100 200 300 400 500
        x    0   1   1   1   0
        r    0   0   1   0   0
        s    0   1   0   1   1
        n    0   1   0   1   0
        """);
  }

  @Test
  void severalStepsMayAskForOneTarget() {
    SmallController chart =
        SmallController.of(
            """
            operator: {go: {type: BOOL}}
            outputs: {q: {type: BOOL}}
            sequences:
              seq:
                steps: {A: {initial: TRUE}, B: {do: [N q]}, C: {do: q}, D: {}}
                transitions:
                  - {from: A, to: B, when: go}
                  - {from: B, to: C, when: go}
                  - {from: C, to: D, when: go}
            """);
    play(
        chart,
        """
        go       0 1 1 0 1
        seq.*.X  A B C C D
        q        0 1 1 1 0
        """);
  }

  private static SmallController aborting() {
    return SmallController.of(
        """
        operator: {go: {type: BOOL}, off: {type: BOOL}}
        outputs: {n: {type: BOOL}, s: {type: BOOL}, lamp: {type: BOOL}}
        sequences:
          seq:
            abort: {when: off, to: out}
            steps:
              A: {initial: TRUE}
              B: {do: [N n, S s]}
              C: {}
              out: {do: [N lamp]}
            transitions:
              - {from: A, to: B, when: go}
              - {from: B, to: C, when: go}
              - {from: out, to: A, when: go}
        """);
  }

  @Test
  void abortLeadsFromAnywhereToOneStepAndClearsWhatIsStored() {
    play(
        aborting(),
        """
        t          0 100 200 300 400 500 600 700
        go         0   1   0   1   0   0   0   0
        off        0   0   0   0   1   1   0   0
        seq.*.X    A   B   B   C out out out out
        n          0   1   1   0   0   0   0   0
        s          0   1   1   1   0   0   0   0
        lamp       0   0   0   0   1   1   1   1
        seq.out.T  0   0   0   0   0 100 200 300
        """);
  }

  @Test
  void noTransitionIsCrossedWhileAborted() {
    play(
        aborting(),
        """
        go       0   1   1   1 1 0
        off      0   1   1   0 0 0
        seq.*.X  A out out   A B B
        """);
  }

  @Test
  void anActionOfTheAbortStepItselfActs() {
    SmallController chart =
        SmallController.of(
            """
            operator: {off: {type: BOOL}}
            outputs: {horn: {type: BOOL}}
            sequences:
              seq:
                abort: {when: off, to: out}
                steps: {A: {initial: TRUE}, out: {do: [S horn]}}
                transitions: [{from: out, to: A, when: NOT off}]
            """);
    play(
        chart,
        """
        off      0   1   1 0 0
        seq.*.X  A out out A A
        horn     0   1   1 1 1
        """);
  }

  @Test
  void onlyBoolOutputsAndInternalsAreTargets() {
    assertEquals(
        List.of(
            "no action can write `count`",
            "no action can write `button`",
            "no point named `lampp`"),
        SmallController.problemsOf(
            """
            inputs: {button: {type: BOOL}}
            outputs: {lamp: {type: BOOL}}
            internal: {count: {type: INT}}
            sequences:
              seq:
                steps:
                  A:
                    initial: TRUE
                    do:
                      - N count
                      - N button
                      - N lampp
                transitions: []
            """));
  }
}
