package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** Two-hand control written as a project's own block; a simulation of such a device, not one. */
class TwoHandTest {
  // Source: ISO 13851:2019, contents 5.2 to 5.8 [re-read]; types and the 0,5 s [from memory, not
  // re-read]; table 2H-1 [computed].

  private static final String PROJECT =
      """
      project: two hands
      scan: T#1ms
      function_blocks:
        two_hand:
          inputs: {left: {type: BOOL}, right: {type: BOOL}}
          outputs: {out: {type: BOOL}}
          state:
            used: {type: BOOL}
            timing: {type: BOOL}
            first: {type: TIME}
          body: |
            IF NOT left AND NOT right THEN
              used := FALSE;
              timing := FALSE;
              out := FALSE;
            ELSE
              IF NOT timing THEN
                timing := TRUE;
                first := scan.time;
              END_IF;
              IF left AND right THEN
                IF NOT used THEN
                  out := scan.time - first <= T#500ms;
                END_IF;
                used := TRUE;
              ELSE
                out := FALSE;
              END_IF;
            END_IF;
      controller:
        operator: {left: {type: BOOL}, right: {type: BOOL}}
        blocks: {press: {block: two_hand, left: left, right: right}}
      """;

  @Test
  void theOutputNeedsBothHandsInTimeAndBothReleasedBefore() { // 2H-1
    play(
        SmallController.ofProject(PROJECT),
        """
        left       0 1 1 1 1 1 0 0 1 1 0 0 1 1 1 1 1 1 1 1 0 0
        right      0 0 0 1 1 1 1 1 1 1 0 0 0 0 0 0 0 0 1 1 0 0
        press.out  0 0 0 1 1 1 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0
        """);
  }
}
