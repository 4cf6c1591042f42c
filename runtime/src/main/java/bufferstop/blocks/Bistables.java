package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Latches. Source: IEC 61131-3:2003, Table 34 [from memory, not re-read]. */
final class Bistables {
  private static final int SET = 0;
  private static final int RESET = 1;
  private static final int Q1 = 2;

  private Bistables() {}

  private static BlockType type(String name, String set, String reset, Body body, String text) {
    return new BlockType(
        name,
        List.of(required(set, Type.BOOL, "sets"), required(reset, Type.BOOL, "resets")),
        List.of(plain("Q1", Type.BOOL, "latched")),
        List.of(),
        body,
        text);
  }

  /** SR. */
  public static final class SetDominant {
    static final BlockType TYPE =
        type(
            "SR",
            "S1",
            "R",
            Body.ofJava(SetDominant.class, SetDominant::step),
            "latch, set dominant");

    private SetDominant() {}

    /** One call. */
    public static void step(long[] cells, int at) {
      cells[at + Q1] = cells[at + SET] | cells[at + Q1] & ~cells[at + RESET];
    }
  }

  /** RS. */
  public static final class ResetDominant {
    static final BlockType TYPE =
        type(
            "RS",
            "S",
            "R1",
            Body.ofJava(ResetDominant.class, ResetDominant::step),
            "latch, reset dominant");

    private ResetDominant() {}

    /** One call. */
    public static void step(long[] cells, int at) {
      cells[at + Q1] = (cells[at + SET] | cells[at + Q1]) & ~cells[at + RESET];
    }
  }
}
