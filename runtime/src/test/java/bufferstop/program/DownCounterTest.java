package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;

/** CTD, scan by scan. */
class DownCounterTest {
  // Source: IEC 61131-3:2003, Table 36 [from memory, not re-read]; the limit of CV is that of INT
  // [project choice: it is implementation-dependent].

  private static SmallController counter(long preset) {
    return SmallController.of(
            """
            operator: {CD: {type: BOOL}, LD: {type: BOOL}, PV: {type: INT}}
            blocks: {b: {block: CTD, CD: CD, LD: LD, PV: PV}}
            """)
        .set("PV", preset);
  }

  @Test
  void countsRisingEdgesDownFromWhatWasLoadedAndBelowZero() { // CTD-1
    play(
        counter(3),
        """
        CD    0 0 1 0 1 0 1 0  1  0 1
        LD    0 1 0 0 0 0 0 0  0  0 1
        b.Q   1 0 0 0 0 0 1 1  1  1 0
        b.CV  0 3 2 2 1 1 0 0 -1 -1 3
        """);
  }

  @Test
  void stopsCountingAtTheLimitOfInt() { // CTD-2
    play(
        counter(0).set("b.CV", -32_766),
        """
        CD         0      1      0      1      0      1
        LD         0      0      0      0      0      0
        b.Q        1      1      1      1      1      1
        b.CV  -32766 -32767 -32767 -32768 -32768 -32768
        """);
  }

  @Test
  void needsSomethingThatLoadsIt() { // [project choice]: without LD its PV would mean nothing
    assertEquals(
        List.of("`b` needs the input LD"),
        SmallController.problemsOf("blocks: {b: {block: CTD, CD: 'FALSE', PV: 3}}"));
  }
}
