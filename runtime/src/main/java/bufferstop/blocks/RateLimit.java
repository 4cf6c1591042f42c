package bufferstop.blocks;

import static bufferstop.blocks.Cells.number;
import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Limit of the rate of change. */
public final class RateLimit {
  static final BlockType TYPE =
      new BlockType(
          "RATE_LIMIT",
          List.of(
              number("IN", "signal"),
              number("UP", "greatest rise, units of IN a second, from 0"),
              number("DOWN", "greatest fall, units of IN a second, from 0")),
          List.of(
              plain("OUT", Type.LREAL, "follows IN, in its unit"),
              plain("LIMITED", Type.BOOL, "OUT is still on its way"),
              Cells.err()),
          List.of(plain("called", Type.BOOL, ""), moment("last"), plain("filled", Type.BOOL, "")),
          Body.ofJava(RateLimit.class, RateLimit::step),
          "OUT follows IN, no faster than UP and DOWN; the first call makes it equal to IN");

  private static final int IN = 0;
  private static final int UP = 1;
  private static final int DOWN = 2;
  private static final int OUT = 3;
  private static final int LIMITED = 4;
  private static final int ERR = 5;
  private static final int CALLED = 6;
  private static final int FILLED = 8;

  private RateLimit() {}

  /** One call. */
  public static void step(long[] cells, int at) {
    double seconds = Cells.secondsSince(cells, at + CALLED);
    double in = Cells.real(cells, at + IN);
    double up = Cells.real(cells, at + UP);
    double down = Cells.real(cells, at + DOWN);
    boolean inOrder = Cells.areNumbers(cells, at + IN, 3) && up >= 0 && down >= 0;
    Cells.store(cells, at + ERR, !inOrder);
    if (!inOrder) {
      return;
    }
    double out = cells[at + FILLED] == 0 ? in : Cells.real(cells, at + OUT);
    double limited = Math.min(Math.max(in, out - down * seconds), out + up * seconds);
    Cells.store(cells, at + OUT, limited);
    Cells.store(cells, at + LIMITED, limited != in);
    cells[at + FILLED] = 1;
  }
}
