package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;
import static bufferstop.st.BlockType.Pin.truth;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/**
 * Edge detectors. Their memory starts FALSE as in the standard's body, so that a level at start-up
 * is an edge, unless PRIMED says otherwise. Source: IEC 61131-3:2003, Table 35 [from memory, not
 * re-read]; PRIMED after IEC TR 61131-8 as reported [from memory, not re-read].
 */
final class Edges {
  private static final int CLK = 0;
  private static final int PRIMED = 1;
  private static final int Q = 2;
  private static final int LAST = 3;
  private static final int CALLED = 4;

  private Edges() {}

  private static BlockType type(String name, Body body, String text) {
    return new BlockType(
        name,
        List.of(
            required("CLK", Type.BOOL, "level"),
            truth("PRIMED", false, "TRUE: the level of the first call is no edge")),
        List.of(plain("Q", Type.BOOL, "edge")),
        List.of(plain("last", Type.BOOL, ""), plain("called", Type.BOOL, "")),
        body,
        text);
  }

  private static void step(long[] cells, int at, long level) {
    long started = cells[at + CALLED] | cells[at + PRIMED] ^ 1;
    cells[at + Q] = level & ~cells[at + LAST] & started;
    cells[at + LAST] = level;
    cells[at + CALLED] = 1;
  }

  /** R_TRIG. */
  public static final class Rising {
    static final BlockType TYPE =
        type(
            "R_TRIG",
            Body.ofJava(Rising.class, Rising::step),
            "TRUE for one scan at a rising edge");

    private Rising() {}

    /** One call. */
    public static void step(long[] cells, int at) {
      Edges.step(cells, at, cells[at + CLK]);
    }
  }

  /** F_TRIG. */
  public static final class Falling {
    static final BlockType TYPE =
        type(
            "F_TRIG",
            Body.ofJava(Falling.class, Falling::step),
            "TRUE for one scan at a falling edge");

    private Falling() {}

    /** One call. */
    public static void step(long[] cells, int at) {
      Edges.step(cells, at, cells[at + CLK] ^ 1);
    }
  }
}
