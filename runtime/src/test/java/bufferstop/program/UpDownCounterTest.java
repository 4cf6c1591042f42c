package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** CTUD, scan by scan. */
class UpDownCounterTest {
  // Source: IEC 61131-3:2003, Table 36 [from memory, not re-read].

  @Test
  void countsBothWaysButNotAtOnceLoadsAndIsReset() { // CTUD-1
    play(
        SmallController.of(
            """
            operator: {CU: {type: BOOL}, CD: {type: BOOL}, R: {type: BOOL}, LD: {type: BOOL}}
            blocks: {b: {block: CTUD, CU: CU, CD: CD, R: R, LD: LD, PV: 2}}
            """),
        """
        CU    0 1 0 1 0 1 0 1 0 0 0 1
        CD    0 0 0 0 0 1 0 0 1 0 0 0
        R     0 0 0 0 0 0 0 0 0 1 1 0
        LD    0 0 0 0 0 0 1 0 0 0 1 0
        b.QU  0 0 0 1 1 1 1 1 1 0 0 0
        b.QD  1 0 0 0 0 0 0 0 0 1 1 0
        b.CV  0 1 1 2 2 2 2 3 2 0 0 1
        """);
  }

  @Test
  void countsAloneWithoutResetAndLoad() {
    play(
        SmallController.of(
            """
            operator: {CU: {type: BOOL}, CD: {type: BOOL}}
            blocks: {b: {block: CTUD, CU: CU, CD: CD, PV: 1}}
            """),
        """
        CU    0 1 0 0 0  0
        CD    0 0 1 0 1  0
        b.QU  0 1 0 0 0  0
        b.QD  1 0 1 1 1  1
        b.CV  0 1 0 0 -1 -1
        """);
  }
}
