package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** How a situation follows from another. */
class SequenceTest {
  // Source: IEC 61131-3:2003, 2.6.5 [re-read]; IEC 60848, rules 1 to 5 [second-hand]. One evolution
  // a scan, first written wins a selection, a step left and entered begins anew [project choices].

  /** The first step is initial, and each with a star. */
  private static SmallController chart(String inputs, String steps, List<String> transitions) {
    StringBuilder yaml = new StringBuilder("operator:\n");
    for (String input : inputs.split(" ")) {
      yaml.append("  ").append(input).append(": {type: BOOL}\n");
    }
    yaml.append("sequences:\n  seq:\n    steps:\n");
    boolean first = true;
    for (String step : steps.split(" ")) {
      String options = first || step.endsWith("*") ? "initial: TRUE" : "";
      yaml.append("      %s: {%s}\n".formatted(step.replace("*", ""), options));
      first = false;
    }
    yaml.append("    transitions:\n");
    for (String transition : transitions) {
      yaml.append("      - {").append(transition).append("}\n");
    }
    return SmallController.of(yaml.toString());
  }

  @Test
  void crossesOneTransitionOfAChainInAScan() { // EV-1
    play(
        chart("c1 c2", "A B C", List.of("from: A, to: B, when: c1", "from: B, to: C, when: c2")),
        """
        c1       0 1 1 1
        c2       0 1 1 1
        seq.*.X  A B C C
        """);
  }

  @ParameterizedTest(name = "c1 = {0}, c2 = {1}: {2}") // EV-3
  @CsvSource({"0, 0, A", "1, 0, B", "0, 1, C", "1, 1, B"})
  void takesTheFirstWrittenOfSeveralThatCouldBeCrossed(long c1, long c2, String next) {
    SmallController chart =
        chart("c1 c2", "A B C", List.of("from: A, to: B, when: c1", "from: A, to: C, when: c2"));
    chart.set("c1", c1).set("c2", c2).scan();
    assertEquals(next, chart.trueOf("seq.*.X"));
  }

  @Test
  void letsTheSecondWrittenGoFirstWhenItIsWrittenFirst() {
    SmallController chart =
        chart("c1 c2", "A B C", List.of("from: A, to: C, when: c2", "from: A, to: B, when: c1"));
    chart.set("c1", 1).set("c2", 1).scan();
    assertEquals("C", chart.trueOf("seq.*.X"));
  }

  static Stream<List<String>> ev4InEveryOrder() {
    return orders(
        List.of(
            "from: A, to: [B1, C1], when: g",
            "from: B1, to: B2, when: b",
            "from: C1, to: C2, when: c",
            "from: [B2, C2], to: D, when: j"))
        .stream();
  }

  @ParameterizedTest // EV-4 and EV-6
  @MethodSource("ev4InEveryOrder")
  void splitsAndJoinsAlikeInEveryOrderOfItsTransitions(List<String> transitions) {
    play(
        chart("g b c j", "A B1 B2 C1 C2 D", transitions),
        """
        g        0     1     0     0     0 0
        b        0     0     1     0     0 0
        c        0     0     0     0     1 0
        j        0     1     1     1     1 1
        seq.*.X  A B1,C1 B2,C1 B2,C1 B2,C2 D
        """);
  }

  static Stream<List<String>> ev5InEveryOrder() {
    return orders(
        List.of(
            "from: I, to: [A, B], when: g", "from: A, to: B, when: t1", "from: B, to: C, when: t2"))
        .stream();
  }

  @ParameterizedTest // EV-5 and EV-6
  @MethodSource("ev5InEveryOrder")
  void keepsAStepThatIsBothLeftAndEnteredAndRestartsItsTime(List<String> transitions) {
    play(
        chart("g t1 t2", "I A B C", transitions),
        """
        t        0 100 200 300 400
        g        1   0   0   0   0
        t1       0   0   1   0   0
        t2       0   0   1   0   1
        seq.*.X A,B A,B B,C B,C C
        seq.B.T  0 100   0 100 200
        """);
  }

  static Stream<List<String>> ev5AloneInEveryOrder() {
    return orders(List.of("from: A, to: B, when: t1", "from: B, to: C, when: t2")).stream();
  }

  @ParameterizedTest // EV-5 as the reference gives it, and EV-6
  @MethodSource("ev5AloneInEveryOrder")
  void activatesAndDeactivatesAtOnceFromSeveralInitialSteps(List<String> transitions) {
    play(
        chart("t1 t2", "A B* C", transitions),
        """
        t        0 100 200 300
        t1       0   1   0   0
        t2       0   1   0   1
        seq.*.X A,B B,C B,C C
        seq.B.T  0   0 100 200
        """);
  }

  @Test
  void severalInitialStepsAreActiveAtTheStartAndMoveByThemselves() { // E1, IEC 60848
    play(
        chart(
            "a b",
            "A1 A2 B1* B2",
            List.of("from: A1, to: A2, when: a", "from: B1, to: B2, when: b")),
        """
        t         0 100 200
        a         0   1   0
        b         0   0   1
        seq.*.X  A1,B1 A2,B1 A2,B2
        seq.B1.T  0 100 200
        """);
  }

  @Test
  void crossesAtOnceWhatCanBeCrossedAtOnce() { // E4
    play(
        chart(
            "c",
            "A1 A2 A3 B1* B2 C1* C2",
            List.of(
                "from: A1, to: A2, when: c",
                "from: A2, to: A3, when: c",
                "from: B1, to: B2, when: c",
                "from: C1, to: C2, when: NOT c")),
        """
        c        0        1        1
        seq.*.X  A1,B1,C2 A2,B2,C2 A3,B2,C2
        """);
  }

  @Test
  void mustCrossWhatIsEnabledAndNothingElse() { // E2: j holds before all its steps are active
    play(
        chart(
            "a j", "A B* C D", List.of("from: A, to: C, when: a", "from: [C, B], to: D, when: j")),
        """
        a        0   1   0
        j        1   1   1
        seq.*.X  A,B B,C D
        """);
  }

  @Test
  void restartsAStepThatLeadsToItself() {
    play(
        chart(
            "again", "A B", List.of("from: A, to: A, when: again", "from: B, to: B, when: again")),
        """
        t         0 100 200 300
        again     0   0   1   0
        seq.*.X   A   A   A   A
        seq.A.T   0 100   0 100
        """);
  }

  @Test
  void holdsTheTimeOfAStepAfterItWasLeft() { // check X/T
    play(
        chart("in out", "I A B", List.of("from: I, to: A, when: in", "from: A, to: B, when: out")),
        """
        t        0 100 200 300 400 500 600 700
        in       0   0   1   0   0   0   0   0
        out      0   0   0   0   0   1   0   0
        seq.A.X  0   0   1   1   1   0   0   0
        seq.A.T  0   0   0 100 200 300 300 300
        """);
  }

  @Test
  void judgesATimeInStepOfThisScan() {
    play(
        chart("any", "A B", List.of("from: A, to: B, when: seq.A.T >= T#250ms")),
        """
        t        0 100 200 249 250 300
        seq.*.X  A   A   A   A   B   B
        seq.A.T  0 100 200 249 250 250
        """);
  }

  @Test
  void evaluatesConditionsOnTheSituationAtTheStartOfTheScan() {
    play(
        chart(
            "go",
            "A B C D",
            List.of("from: A, to: [B, C], when: go", "from: C, to: D, when: seq.B.X")),
        """
        go       0   1   1
        seq.*.X  A B,C B,D
        """);
  }

  @Test
  void isLateOnceAStepHasLastedLongerThanAllowed() {
    SmallController chart =
        SmallController.of(
            """
            operator: {again: {type: BOOL}, out: {type: BOOL}}
            sequences:
              seq:
                steps: {A: {initial: TRUE, within: T#200ms}, B: {}}
                transitions:
                  - {from: A, to: A, when: again}
                  - {from: A, to: B, when: out}
            """);
    play(
        chart,
        """
        t           0 100 200 201 300 400 601 700
        again       0   0   0   0   1   0   0   0
        out         0   0   0   0   0   0   0   1
        seq.A.late  0   0   0   1   0   0   1   0
        seq.B.late  0   0   0   0   0   0   0   0
        """);
  }

  @Test
  void leavesAStepNoEarlierThanItMustLast() { // [project choice]
    SmallController chart =
        SmallController.of(
            """
            operator: {again: {type: BOOL}, out: {type: BOOL}}
            sequences:
              seq:
                steps: {A: {initial: TRUE, at_least: T#200ms}, B: {}}
                transitions:
                  - {from: A, to: A, when: again}
                  - {from: A, to: B, when: out}
            """);
    play(
        chart,
        """
        t        0 100 199 250 300 449 450 500
        again    0   1   0   1   0   0   0   0
        out      1   0   1   0   1   1   1   0
        seq.*.X  A   A   A   A   A   A   B   B
        seq.A.T  0 100 199   0  50 199 200 200
        """);
  }

  @Test
  void joinsNoEarlierThanTheLastStepMayBeLeft() { // [project choice]
    SmallController chart =
        SmallController.of(
            """
            sequences:
              seq:
                steps:
                  I: {initial: TRUE}
                  A: {at_least: T#100ms}
                  B: {at_least: T#300ms}
                  C: {}
                transitions:
                  - {from: I, to: [A, B], when: "TRUE"}
                  - {from: [A, B], to: C, when: "TRUE"}
            """);
    play(
        chart,
        """
        t          0 100 200 299 300
        seq.*.X  A,B A,B A,B A,B   C
        """);
  }

  @Test
  void abortsAStepThatMustStillLast() { // [project choice]
    SmallController chart =
        SmallController.of(
            """
            operator: {off: {type: BOOL}}
            sequences:
              seq:
                abort: {when: off, to: out}
                steps: {A: {initial: TRUE, at_least: T#1h}, out: {at_least: T#200ms}}
                transitions: [{from: out, to: A, when: "TRUE"}]
            """);
    play(
        chart,
        """
        t        0 100 200 300 400
        off      0   1   0   0   0
        seq.*.X  A out out   A   A
        """);
  }

  private static List<List<String>> orders(List<String> all) {
    if (all.isEmpty()) {
      return List.of(List.of());
    }
    List<List<String>> orders = new ArrayList<>();
    for (String first : all) {
      List<String> rest = new ArrayList<>(all);
      rest.remove(first);
      for (List<String> order : orders(rest)) {
        List<String> whole = new ArrayList<>(List.of(first));
        whole.addAll(order);
        orders.add(whole);
      }
    }
    return orders;
  }
}
