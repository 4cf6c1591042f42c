package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** CTU, scan by scan. */
class UpCounterTest {
  // Source: IEC 61131-3:2003, Table 36 [from memory, not re-read]; the limit of CV is that of INT
  // [project choice: it is implementation-dependent].

  private static SmallController counter(long preset) {
    return SmallController.of(
            """
            operator: {CU: {type: BOOL}, R: {type: BOOL}, PV: {type: INT}}
            blocks: {b: {block: CTU, CU: CU, R: R, PV: PV}}
            """)
        .set("PV", preset);
  }

  @Test
  void countsRisingEdgesPastThePresetUntilReset() { // CTU-1
    play(
        counter(3),
        """
        CU    0 1 1 0 1 0 1 0 1 0 1 1
        R     0 0 0 0 0 0 0 0 0 0 1 0
        b.Q   0 0 0 0 0 0 1 1 1 1 0 0
        b.CV  0 1 1 1 2 2 3 3 4 4 0 0
        """);
  }

  @Test
  void stopsCountingAtTheLimitOfInt() { // CTU-2
    play(
        counter(32_767).set("b.CV", 32_765),
        """
        CU        0     1     0     1     0     1     0
        R         0     0     0     0     0     0     0
        b.Q       0     0     0     1     1     1     1
        b.CV  32765 32766 32766 32767 32767 32767 32767
        """);
  }

  @Test
  void countsACuThatIsTrueInTheFirstScan() { // CTU-3
    play(
        counter(0),
        """
        CU    1 1 0 1
        R     0 0 0 0
        b.Q   1 1 1 1
        b.CV  1 1 1 2
        """);
  }

  @Test
  void losesAnEdgeThatComesWhileReset() { // CTU-4
    play(
        counter(2),
        """
        CU    0 1 0 1 1 0 1
        R     0 0 0 1 0 0 0
        b.Q   0 0 0 0 0 0 0
        b.CV  0 1 1 0 0 0 1
        """);
  }

  @Test
  void judgesAChangedPresetAtOnce() { // CTU-5
    play(
        counter(5),
        """
        CU    0 1 0 1 0 0
        R     0 0 0 0 0 0
        PV    5 5 5 5 2 3
        b.Q   0 0 0 0 1 0
        b.CV  0 1 1 2 2 2
        """);
  }
}
