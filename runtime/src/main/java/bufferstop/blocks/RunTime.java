package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;
import static bufferstop.st.BlockType.Pin.truth;

import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** What a maintenance plan counts: hours and starts. */
final class RunTime {
  private static final double MICROS_AN_HOUR = 3.6e9;
  private static final long MOST_STARTS = 0xFFFF_FFFFL;

  private RunTime() {}

  /** ON_TIME_COUNTER. */
  public static final class Hours {
    static final BlockType TYPE =
        new BlockType(
            "ON_TIME_COUNTER",
            List.of(required("IN", Type.BOOL, "runs"), truth("R", false, "to 0, while TRUE")),
            List.of(
                plain("ET", Type.TIME, "time IN has been TRUE"),
                plain("HOURS", Type.LREAL, "the same, h")),
            List.of(plain("running", Type.BOOL, ""), moment("last")),
            Body.ofJava(Hours.class, Hours::step),
            "adds up the time IN is TRUE");

    private static final int IN = 0;
    private static final int R = 1;
    private static final int ET = 2;
    private static final int HOURS = 3;
    private static final int RUNNING = 4;
    private static final int LAST = 5;

    private Hours() {}

    /** One call. IN counts from the call that sees it TRUE to the one that sees it FALSE. */
    public static void step(long[] cells, int at) {
      long now = cells[SystemCells.TIME];
      long more = cells[at + RUNNING] != 0 ? now - cells[at + LAST] : 0;
      cells[at + ET] = cells[at + R] != 0 ? 0 : cells[at + ET] + more;
      Cells.store(cells, at + HOURS, cells[at + ET] / MICROS_AN_HOUR);
      cells[at + RUNNING] = cells[at + IN];
      cells[at + LAST] = now;
    }
  }

  /** START_COUNTER. */
  public static final class Starts {
    static final BlockType TYPE =
        new BlockType(
            "START_COUNTER",
            List.of(required("IN", Type.BOOL, "runs"), truth("R", false, "to 0, while TRUE")),
            List.of(plain("CV", Type.UDINT, "starts")),
            List.of(plain("last", Type.BOOL, "")),
            Body.ofJava(Starts.class, Starts::step),
            "counts how often IN became TRUE; TRUE in the first call counts");

    private static final int IN = 0;
    private static final int R = 1;
    private static final int CV = 2;
    private static final int LAST = 3;

    private Starts() {}

    /** One call. The count stops at the limit of UDINT. */
    public static void step(long[] cells, int at) {
      long start = cells[at + IN] & ~cells[at + LAST];
      cells[at + CV] = cells[at + R] != 0 ? 0 : Math.min(cells[at + CV] + start, MOST_STARTS);
      cells[at + LAST] = cells[at + IN];
    }
  }
}
