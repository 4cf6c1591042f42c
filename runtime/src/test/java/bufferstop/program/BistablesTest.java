package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** SR and RS, scan by scan. */
class BistablesTest {
  // Source: IEC 61131-3:2003, Table 34 [from memory, not re-read].

  private static SmallController bistable(String block, String set, String reset) {
    return SmallController.of(
        """
        operator: {%2$s: {type: BOOL}, %3$s: {type: BOOL}}
        blocks: {b: {block: %1$s, %2$s: %2$s, %3$s: %3$s}}
        """
            .formatted(block, set, reset));
  }

  @Test
  void setWinsInSr() { // SR-1
    play(
        bistable("SR", "S1", "R"),
        """
        S1    0 1 0 1 0 0 1 0
        R     0 0 0 1 0 1 1 1
        b.Q1  0 1 1 1 1 0 1 0
        """);
  }

  @Test
  void resetWinsInRs() { // RS-1
    play(
        bistable("RS", "S", "R1"),
        """
        S     0 1 0 1 0 0 1 0
        R1    0 0 0 1 0 1 1 1
        b.Q1  0 1 1 0 0 0 0 0
        """);
  }
}
