package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** R_TRIG and F_TRIG, scan by scan. */
class EdgesTest {
  // Source: IEC 61131-3:2003, Table 35 and its note [from memory, not re-read]; the memory starts
  // FALSE as in the body printed there, so a level in the first scan counts as an edge.

  private static SmallController primed(String block) {
    return edge(block + ", PRIMED: TRUE");
  }

  private static SmallController edge(String block) {
    return SmallController.of(
        """
        operator: {CLK: {type: BOOL}}
        blocks: {b: {block: %s, CLK: CLK}}
        """
            .formatted(block));
  }

  @Test
  void risingIsSeenForOneScan() { // R_TRIG-1
    play(
        edge("R_TRIG"),
        """
        CLK  0 1 1 0 1 0 0 1
        b.Q  0 1 0 0 1 0 0 1
        """);
  }

  @Test
  void trueInTheFirstScanCountsAsRising() { // R_TRIG-2
    play(
        edge("R_TRIG"),
        """
        CLK  1 1 0 1
        b.Q  1 0 0 1
        """);
  }

  @Test
  void falseInTheFirstScanCountsAsFalling() { // F_TRIG-1
    play(
        edge("F_TRIG"),
        """
        CLK  0 0 1 0 0 1 1 0
        b.Q  1 0 0 1 0 0 0 1
        """);
  }

  @Test
  void fallingIsSeenForOneScan() { // F_TRIG-3
    play(
        edge("F_TRIG"),
        """
        CLK  1 1 0 0
        b.Q  0 0 1 0
        """);
  }

  @Test
  void trueInTheFirstScanIsNoEdgeWhenPrimed() { // R_TRIG-3
    play(
        primed("R_TRIG"),
        """
        CLK  1 1 0 1
        b.Q  0 0 0 1
        """);
  }

  @Test
  void falseInTheFirstScanIsNoEdgeWhenPrimed() { // F_TRIG-2
    play(
        primed("F_TRIG"),
        """
        CLK  0 0 1 0 0 1 1 0
        b.Q  0 0 0 1 0 0 0 1
        """);
  }

  @Test
  void aPrimedBlockSeesTheFirstRealEdge() { // primed from CLK: the other level changes nothing
    play(
        primed("R_TRIG"),
        """
        CLK  0 1 1
        b.Q  0 1 0
        """);
    play(
        primed("F_TRIG"),
        """
        CLK  1 0 0
        b.Q  0 1 0
        """);
  }
}
