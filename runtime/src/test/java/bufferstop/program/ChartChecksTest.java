package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What is warned of in a chart. */
class ChartChecksTest {
  // Source: IEC 61131-3:2003, Annex E, unsafe or unreachable SFC [second-hand].

  private static List<String> warnings(String steps, String transitions) {
    StringBuilder yaml = new StringBuilder("operator: {c: {type: BOOL}}\nsequences:\n  seq:\n");
    yaml.append("    steps:\n");
    steps.lines().forEach(step -> yaml.append("      ").append(step).append('\n'));
    yaml.append("    transitions:\n");
    transitions
        .lines()
        .forEach(gate -> yaml.append("      - {").append(gate).append(", when: c}\n"));
    return SmallController.problemsOf(yaml.toString());
  }

  @Test
  void aSoundChartGivesNone() {
    assertEquals(
        List.of(),
        warnings(
            "A: {initial: TRUE}\nB1: {}\nB2: {}\nC1: {}\nC2: {}\nD: {final: TRUE}",
            """
            from: A, to: [B1, C1]
            from: B1, to: B2
            from: C1, to: C2
            from: [B2, C2], to: D
            """));
  }

  @Test
  void aStepThatNothingLeadsTo() {
    assertEquals(
        List.of("nothing leads to `seq.C`", "nothing leads to `seq.D`"),
        warnings(
            "A: {initial: TRUE}\nB: {}\nC: {}\nD: {}",
            "from: A, to: B\nfrom: B, to: A\nfrom: C, to: D\nfrom: D, to: C"));
  }

  @Test
  void aStepWithoutAnExitUnlessItIsSaidToBeFinal() {
    assertEquals(
        List.of("no transition leads out of `seq.B`"),
        warnings("A: {initial: TRUE}\nB: {}\nC: {final: TRUE}", "from: A, to: B\nfrom: A, to: C"));
  }

  @Test
  void aJoinOfBranchesOfWhichOnlyOneIsChosen() {
    assertEquals(
        List.of("`B`, `C` are never active together"),
        warnings(
            "A: {initial: TRUE}\nB: {}\nC: {}\nD: {final: TRUE}",
            "from: A, to: B\nfrom: A, to: C\nfrom: [B, C], to: D"));
  }

  @Test
  void branchesThatBeganTogetherAndEndOneByOne() {
    assertEquals(
        List.of(
            "this transition may enter `seq.D` while that is active already",
            "this transition may enter `seq.D` while that is active already"),
        warnings(
            "A: {initial: TRUE}\nB: {}\nC: {}\nD: {final: TRUE}",
            "from: A, to: [B, C]\nfrom: B, to: D\nfrom: C, to: D"));
  }

  @Test
  void aBranchThatLeadsBackIntoItsBeginning() {
    assertEquals(
        List.of("this transition may enter `seq.C` while that is active already"),
        warnings(
            "A: {initial: TRUE}\nB: {}\nC: {final: TRUE}", "from: A, to: [B, C]\nfrom: B, to: A"));
  }

  @Test
  void theTargetOfAnAbortIsReached() {
    assertEquals(
        List.of(),
        SmallController.problemsOf(
            """
            operator: {c: {type: BOOL}}
            sequences:
              seq:
                abort: {when: c, to: out}
                steps: {A: {initial: TRUE, final: TRUE}, out: {}}
                transitions: [{from: out, to: A, when: c}]
            """));
  }

  @Test
  void anActionThatNoStepAsksFor() {
    assertEquals(
        List.of("no step asks for `open`"),
        SmallController.problemsOf(
            """
            outputs: {gate: {type: BOOL}}
            sequences:
              seq:
                actions: {open: "gate := TRUE;"}
                steps: {A: {initial: TRUE, final: TRUE}}
                transitions: []
            """));
  }

  @Test
  void aChartWithMoreSituationsThanAreLookedAtIsLeftAlone() {
    StringBuilder steps = new StringBuilder("A: {initial: TRUE}\n");
    StringBuilder begin = new StringBuilder("from: A, to: [");
    StringBuilder gates = new StringBuilder();
    for (int i = 0; i < 12; i++) {
      steps.append("B%d: {}\nC%d: {}\n".formatted(i, i));
      begin.append(i == 0 ? "" : ", ").append("B").append(i);
      gates.append("from: B%d, to: C%d\nfrom: C%d, to: B%d\n".formatted(i, i, i, i));
    }
    assertEquals(List.of(), warnings(steps.toString(), begin + "]\n" + gates));
  }
}
