package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Who may ask for what, and what an abort does. */
class ActionsTest {
  // Source: IEC 61131-3:2003, 2.6.4.5 [re-read]; abort [project choice].

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

  @Test
  void abortClearsWhatIsStoredWithATimeOnceEachTimeItBegins() {
    SmallController chart =
        SmallController.of(
            """
            operator: {go: {type: BOOL}, off: {type: BOOL}}
            outputs:
              sd: {type: BOOL}
              ds: {type: BOOL}
              sl: {type: BOOL}
              horn: {type: BOOL}
              chime: {type: BOOL}
            sequences:
              seq:
                abort: {when: off, to: out}
                steps:
                  A: {initial: TRUE}
                  B: {do: [SD T#300ms sd, DS T#100ms ds, SL T#300ms sl]}
                  out: {do: [SL T#200ms horn, P chime]}
                transitions: [{from: A, to: B, when: go}]
            """);
    play(
        chart,
        """
        t        0 100 200 300 400 500 600 700 800
        go       0   1   0   0   0   0   0   0   0
        off      0   0   0   1   1   1   0   1   0
        seq.*.X  A   B   B out out out out out out
        sd       0   0   0   0   0   0   0   0   0
        ds       0   0   1   0   0   0   0   0   0
        sl       0   1   1   0   0   0   0   0   0
        horn     0   0   0   1   1   0   0   1   1
        chime    0   0   0   1   0   0   0   0   0
        """);
  }

  @Test
  void oneActionWithATimeOnATargetIsEnough() { // A6, refused wherever they stand [project choice]
    assertEquals(
        List.of(
            "a second action with a time on `q`",
            "a second action with a time on `Q`",
            "a second action with a time on `r`"),
        SmallController.problemsOf(
            """
            outputs: {q: {type: BOOL}, r: {type: BOOL}}
            sequences:
              seq:
                steps:
                  A: {initial: TRUE, do: [L T#1s q, N q, S q, P q, R r]}
                  B: {do: [SD T#2s q, SL T#1s r]}
                  C: {do: [D T#3s Q]}
                  D:
                    do:
                      - DS T#1s r
                transitions: []
            """));
  }
}
