package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Every point has one writer. */
class OwnersTest {
  private static final String SEQUENCE =
      """
      sequences:
        seq:
          steps: {A: {initial: TRUE, do: [N q]}, B: {do: [S q]}}
          transitions: [{from: A, to: B, when: "FALSE"}, {from: B, to: A, when: "FALSE"}]
      """;
  private static final String OUTPUT = "outputs: {q: {type: BOOL}}\n";

  @Test
  void aSequenceAndTheLogicCannotBothWriteAnOutput() {
    assertEquals(
        List.of("`q` has two writers"),
        SmallController.problemsOf(OUTPUT + SEQUENCE + "logic: q := TRUE;\n"));
  }

  @Test
  void twoSequencesCannotBothWriteAnOutput() {
    String second =
        """
          other:
            steps: {A: {initial: TRUE, do: [R q]}}
            transitions: []
        """;
    assertEquals(
        List.of("`q` has two writers"), SmallController.problemsOf(OUTPUT + SEQUENCE + second));
  }

  @Test
  void theStepsOfOneSequenceShareAnOutput() {
    assertEquals(List.of(), SmallController.problemsOf(OUTPUT + SEQUENCE));
  }

  @Test
  void ofSeveralAssignmentsOfTheLogicTheFieldSeesTheLast() {
    SmallController on =
        SmallController.of(
            OUTPUT
                + """
                logic: |
                  q := TRUE;
                  q := FALSE;
                """);
    assertEquals(0, on.scan().get("q"));
  }

  @Test
  void theLogicWritesNeitherInputsNorOperatorPointsNorSteps() {
    List<String> problems =
        SmallController.problemsOf(
            """
            inputs: {in: {type: BOOL}}
            operator: {op: {type: BOOL}}
            sequences:
              seq:
                steps: {A: {initial: TRUE}}
                transitions: []
            logic: |
              in := TRUE;
              op := TRUE;
              seq.A.X := TRUE;
            """);
    assertEquals(3, problems.size(), problems::toString);
  }
}
