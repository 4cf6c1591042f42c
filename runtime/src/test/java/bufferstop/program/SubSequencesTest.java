package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Sequences run by a step of another. */
class SubSequencesTest {
  // Source: enclosing step of IEC 60848:2013 (G4) [from memory, not re-read]; by scan, and what
  // hold and abort do to what is inside [project choices].

  private static SmallController nested() {
    return SmallController.of(
        """
        operator: {go: {type: BOOL}, c: {type: BOOL}, off: {type: BOOL}, pause: {type: BOOL}}
        outputs: {n: {type: BOOL}, s: {type: BOOL}}
        internal: {ended: {type: INT}}
        sequences:
          inner:
            actions: {count_end: ended := ended + 1;}
            steps:
              X: {initial: TRUE, do: [N n, S s, P0 count_end]}
              Y: {}
              Z: {final: TRUE}
            transitions:
              - {from: X, to: Y, when: c}
              - {from: Y, to: Z, when: c}
          outer:
            abort: {when: off, to: A}
            hold: {when: pause}
            steps:
              A: {initial: TRUE}
              B: {run: inner}
              C: {}
            transitions:
              - {from: A, to: B, when: go}
              - {from: B, to: C, when: inner.done}
              - {from: B, to: B, when: go}
              - {from: C, to: A, when: go}
        """);
  }

  @Test
  void itBeginsWithItsStepGoesOnWhileThatIsActiveAndIsEmptyAfterwards() {
    play(
        nested(),
        """
        t           0 100 200 300 400 500 600
        go          0   1   0   0   0   0   0
        c           1   1   0   1   1   1   1
        outer.*.X   A   B   B   B   B   C   C
        inner.*.X   -   X   X   Y   Z   -   -
        inner.done  0   0   0   0   1   0   0
        inner.X.T   0   0 100 200 200 200 200
        n           0   1   1   0   0   0   0
        s           0   1   1   1   1   1   1
        ended       0   0   0   1   1   1   1
        """);
  }

  @Test
  void itBeginsAnewWithItsStep() {
    play(
        nested(),
        """
        t           0 100 200 300
        go          1   0   1   0
        c           0   1   1   0
        outer.*.X   B   B   B   B
        inner.*.X   X   Y   X   X
        inner.X.T   0 100   0 100
        """);
  }

  @Test
  void aHeldOneHoldsWhatItRuns() {
    play(
        nested(),
        """
        t           0 100 200 300 400 500
        go          1   0   0   0   0   0
        c           0   0   1   1   1   1
        pause       0   0   1   1   0   0
        inner.held  0   0   1   1   0   0
        inner.*.X   X   X   X   X   Y   Z
        inner.X.T   0 100 100 100 200 200
        n           1   1   0   0   0   0
        s           1   1   0   0   1   1
        """);
  }

  @Test
  void anAbortedOneEmptiesWhatItRunsAndClearsWhatThatStored() {
    play(
        nested(),
        """
        go          1 0 0 0 0
        off         0 0 1 1 0
        outer.*.X   B B A A A
        inner.*.X   X X - - -
        s           1 1 0 0 0
        ended       0 0 1 1 1
        """);
  }

  @Test
  void oneRunByAnInitialStepIsActiveFromTheStart() {
    SmallController chart =
        SmallController.of(
            """
            operator: {c: {type: BOOL}}
            sequences:
              outer:
                steps: {A: {initial: TRUE, run: inner}, B: {run: second}}
                transitions: [{from: A, to: B, when: inner.Y.X}, {from: B, to: A, when: "FALSE"}]
              inner:
                steps: {X: {initial: TRUE}, Y: {final: TRUE}}
                transitions: [{from: X, to: Y, when: c}]
              second:
                steps: {V: {initial: TRUE}, W: {initial: TRUE, final: TRUE}}
                transitions: [{from: V, to: V, when: c}]
            """);
    play(
        chart,
        """
        c            0 1 0   0
        outer.*.X    A A B   B
        inner.*.X    X Y -   -
        second.*.X   - - V,W V,W
        second.done  0 0 1   1
        """);
  }

  @Test
  void whatIsInsideIsEmptiedThroughSeveralLevelsInOneScan() {
    SmallController chart =
        SmallController.of(
            """
            operator: {go: {type: BOOL}, off: {type: BOOL}}
            sequences:
              third: {steps: {E: {initial: TRUE, final: TRUE}}, transitions: []}
              second: {steps: {D: {initial: TRUE, final: TRUE, run: third}}, transitions: []}
              first:
                abort: {when: off, to: A}
                steps: {A: {initial: TRUE}, B: {run: second, final: TRUE}}
                transitions: [{from: A, to: B, when: go}]
            """);
    play(
        chart,
        """
        go          0 1 0 0
        off         0 0 0 1
        first.*.X   A B B A
        second.*.X  - D D -
        third.*.X   - E E -
        """);
  }

  @Test
  void anAbortOfItsOwnCountsOnlyWhileItRuns() {
    SmallController chart =
        SmallController.of(
            """
            operator: {go: {type: BOOL}, off: {type: BOOL}}
            sequences:
              inner:
                abort: {when: off, to: Y}
                steps: {X: {initial: TRUE}, Y: {final: TRUE}}
                transitions: [{from: X, to: X, when: "FALSE"}]
              outer:
                steps: {A: {initial: TRUE}, B: {run: inner}}
                transitions: [{from: A, to: B, when: go}, {from: B, to: A, when: NOT go}]
            """);
    play(
        chart,
        """
        go         0 0 1 1 1 0
        off        1 1 1 1 0 0
        inner.*.X  - - X Y Y -
        """);
  }

  @Test
  void oneRunTwiceALoopAndAnUnknownOneAreRefused() {
    assertEquals(
        List.of(
            "`once` is run by two steps",
            "no sequence named `onse`",
            "`rung` runs itself: `rung.A` runs `ring.A` runs `rang.A` runs `rung`"),
        SmallController.problemsOf(
            """
            sequences:
              once: {steps: {A: {initial: TRUE}}, transitions: []}
              outer:
                steps:
                  A: {initial: TRUE, run: once}
                  B: {run: once}
                  C: {run: onse}
                transitions: []
              rung: {steps: {A: {initial: TRUE, run: ring}}, transitions: []}
              ring: {steps: {A: {initial: TRUE, run: rang}}, transitions: []}
              rang: {steps: {A: {initial: TRUE, run: rung}}, transitions: []}
            """));
  }
}
