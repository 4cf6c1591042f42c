package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** A sequence that is moved by hand, step by step. All behaviour by scan [project choice]. */
class ManualSteppingTest {

  private static SmallController chart() {
    return SmallController.of(
        """
        operator:
          hand: {type: BOOL}
          next: {type: BOOL}
          c1: {type: BOOL}
          c2: {type: BOOL}
          beam: {type: BOOL}
          off: {type: BOOL}
        outputs: {valve: {type: BOOL}}
        interlocks:
          guard: {interlock: beam, makes_safe: [valve]}
        sequences:
          seq:
            abort: {when: off, to: A}
            manual: {when: hand, next: next}
            steps:
              A: {initial: TRUE}
              B: {do: [N valve], at_least: T#200ms}
              C: {}
            transitions:
              - {from: A, to: B, when: c1}
              - {from: A, to: C, when: c2}
              - {from: B, to: C, when: c1}
              - {from: C, to: A, when: c1}
        """);
  }

  @Test
  void nothingMovesByItself() {
    play(
        chart(),
        """
        hand        1 1 1 0
        c1          1 1 1 1
        next        0 0 0 0
        seq.manual  1 1 1 0
        seq.*.X     A A A B
        """);
  }

  @Test
  void anEdgeTakesTheTransitionWhoseConditionHolds() {
    play(
        chart(),
        """
        hand     1 1 1 1 1
        c2       1 1 1 1 1
        next     0 1 1 0 0
        seq.*.X  A C C C C
        """);
  }

  @Test
  void anEdgeTakesTheFirstWrittenOneWhenNoConditionHolds() {
    play(
        chart(),
        """
        t        0 100 200 300 400 500 600
        hand     1   1   1   1   1   1   1
        next     1   0   1   0   1   0   1
        seq.*.X  B   B   C   C   A   A   B
        """);
  }

  @Test
  void aStepLastsAsLongAsItMustAndAnEarlierEdgeIsLost() {
    play(
        chart(),
        """
        t        0 100 150 200 250 300
        hand     1   1   1   1   1   1
        next     1   0   1   0   0   1
        seq.*.X  B   B   B   B   B   C
        """);
  }

  @Test
  void aButtonHeldFromBeforeIsNoEdge() {
    play(
        chart(),
        """
        hand     0 0 1 1 1
        next     0 1 1 0 1
        seq.*.X  A A A A B
        """);
  }

  @Test
  void interlocksAndAbortActAsEver() {
    play(
        chart(),
        """
        hand     1 1 1 1 1 1
        next     1 0 0 0 0 1
        beam     0 1 0 1 1 1
        off      0 0 0 0 1 1
        valve    0 1 0 1 0 0
        seq.*.X  B B B B A A
        """);
  }

  private static SmallController join() {
    return SmallController.of(
        """
        operator: {hand: {type: BOOL}, next: {type: BOOL}, b: {type: BOOL}, j: {type: BOOL}}
        sequences:
          seq:
            manual: {when: hand, next: next}
            steps: {A: {initial: TRUE}, B1: {}, B2: {}, C1: {}, D: {}}
            transitions:
              - {from: A, to: [B1, C1], when: b}
              - {from: B1, to: B2, when: b}
              - {from: [B2, C1], to: D, when: j}
              - {from: D, to: A, when: j}
        """);
  }

  @Test
  void aJoinWaitsForAllItsStepsAndBranchesGoOnStepByStep() {
    play(
        join(),
        """
        hand     1     1     1 1 1
        next     1     0     1 0 1
        seq.*.X  B1,C1 B1,C1 B2,C1 B2,C1 D
        """);
  }

  @Test
  void withOneConditionTrueOnlyThatTransitionGoes() {
    SmallController two =
        SmallController.of(
            """
            operator: {hand: {type: BOOL}, next: {type: BOOL}, c: {type: BOOL}}
            sequences:
              seq:
                manual: {when: hand, next: next}
                steps: {A: {initial: TRUE}, B: {initial: TRUE}, C: {}, D: {}}
                transitions:
                  - {from: A, to: C, when: c}
                  - {from: B, to: D, when: "FALSE"}
                  - {from: C, to: A, when: "FALSE"}
                  - {from: D, to: B, when: "FALSE"}
            """);
    play(
        two,
        """
        hand     1   1   1   1
        next     1   0   1   0
        c        1   1   0   0
        seq.*.X  B,C B,C A,D A,D
        """);
  }
}
