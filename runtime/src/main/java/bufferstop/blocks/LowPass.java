package bufferstop.blocks;

import static bufferstop.blocks.Cells.number;
import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Low-pass filter of first order. */
public final class LowPass {
  static final BlockType TYPE =
      new BlockType(
          "LOW_PASS",
          List.of(
              number("IN", "signal"),
              required("T", Type.TIME, "time constant; OUT is IN without one")),
          List.of(plain("OUT", Type.LREAL, "IN filtered, in its unit"), Cells.err()),
          List.of(
              plain("called", Type.BOOL, ""),
              moment("last"),
              plain("filled", Type.BOOL, ""),
              plain("held", Type.LREAL, "")),
          Body.ofJava(LowPass.class, LowPass::step),
          "low-pass filter of first order: after a step, 63 % of it after T");

  private static final int IN = 0;
  private static final int T = 1;
  private static final int OUT = 2;
  private static final int ERR = 3;
  private static final int CALLED = 4;
  private static final int FILLED = 6;
  private static final int HELD = 7;

  private LowPass() {}

  /**
   * One call. The solution of T dOUT/dt + OUT = IN, exact for an IN that holds its value from call
   * to call; the first call that is in order makes OUT equal to IN.
   */
  public static void step(long[] cells, int at) {
    double seconds = Cells.secondsSince(cells, at + CALLED);
    double in = Cells.real(cells, at + IN);
    double lag = Cells.seconds(cells, at + T);
    boolean follows = cells[at + FILLED] == 0 || lag <= 0;
    double out =
        follows
            ? in
            : Cells.lagged(Cells.real(cells, at + OUT), Cells.real(cells, at + HELD), seconds, lag);
    boolean refused = !Double.isFinite(in) || !Double.isFinite(out);
    Cells.store(cells, at + ERR, refused);
    if (!refused) {
      Cells.store(cells, at + OUT, out);
      Cells.store(cells, at + HELD, in);
      cells[at + FILLED] = 1;
    }
  }
}
