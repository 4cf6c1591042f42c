package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is refused before the first scan, one report for each cause. */
class LinkingTest {
  private static final String A_BOOL = "operator: {a: {type: BOOL}}\noutputs: {q: {type: BOOL}}\n";

  private static void assertRefused(String section, String problem) {
    assertEquals(List.of(problem), SmallController.problemsOf(A_BOOL + section));
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "{block: TOON, IN: a, PT: T#1s} | no block named `TOON`",
        "{block: TON, IN: a} | `b` needs the input PT",
        "{block: R_TRIG, CLK: a, R: a} | a R_TRIG has no input `R`",
        "{block: TON, IN: a, in: a, PT: T#1s} | `b` has the input IN twice",
        "{block: TON, IN: T#1s, PT: T#1s} | `T#1s` is TIME"
      })
  void aBlockWithoutItsPins(String block, String problem) {
    assertRefused("blocks: {b: " + block + "}", problem);
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "{permissive: a, makes_safe: [q]}"
            + " | a permissive does not stop what runs, so it makes nothing safe",
        "{interlock: a, makes_safe: [valve]} | no output named `valve`",
        "{trip: {}, reset: a} | `i` has no causes",
        "{interlock: b} | no point named `b`"
      })
  void anInterlockThatCannotDoItsWork(String interlock, String problem) {
    assertRefused("interlocks: {i: " + interlock + "}", problem);
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "{steps: {}, transitions: []} | `s` has no initial step",
        "{steps: {A: {initial: TRUE}}, transitions: [{from: [], to: A, when: a}]}"
            + " | `from` names nothing",
        "{steps: {A: {initial: TRUE}}, transitions: [{from: A, to: [], when: a}]}"
            + " | `to` names nothing",
        "{steps: {A: {initial: TRUE}}, transitions: [{from: A, to: B, when: a}]}"
            + " | `s` has no step `B`",
        "{abort: {when: a, to: C}, steps: {A: {initial: TRUE}}, transitions: []}"
            + " | `s` has no step `C`",
        "{steps: {A: {initial: TRUE}, a: {}}, transitions: []} | `s.a` is declared twice"
      })
  void aSequenceThatDoesNotHangTogether(String sequence, String problem) {
    assertRefused("sequences: {s: " + sequence + "}", problem);
  }

  @Test
  void aBlockDeclaredTwiceInDifferentCaseIsReportedOnce() {
    assertRefused(
        "blocks: {b: {block: TON, IN: a, PT: T#1s}, B: {block: TON, IN: a, PT: T#1s}}",
        "`B` is declared twice");
  }

  @Test
  void aBlockWithoutAnOptionalInputRuns() {
    SmallController on = SmallController.of(A_BOOL + "blocks: {b: {block: CTU, CU: a, PV: 1}}");
    assertEquals(1, on.set("a", 1).scan().get("b.CV"));
  }
}
