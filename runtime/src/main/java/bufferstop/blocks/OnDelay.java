package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;

import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** On-delay timer, TON. Source: IEC 61131-3:2003, Table 37 [from memory, not re-read]. */
public final class OnDelay {
  static final BlockType TYPE =
      new BlockType(
          "TON",
          List.of(
              required("IN", Type.BOOL, "starts the time"),
              required("PT", Type.TIME, "preset"),
              Preset.latched()),
          List.of(plain("Q", Type.BOOL, "time passed"), plain("ET", Type.TIME, "elapsed time")),
          List.of(plain("timing", Type.BOOL, ""), moment("start"), plain("preset", Type.TIME, "")),
          Body.ofJava(OnDelay.class, OnDelay::step),
          "Q once IN has been TRUE for PT");

  private static final int IN = 0;
  private static final int PT = 1;
  private static final int LATCHED = 2;
  private static final int Q = 3;
  private static final int ET = 4;
  private static final int TIMING = 5;
  private static final int START = 6;
  private static final int PRESET = 7;

  private OnDelay() {}

  /**
   * One call. Q is TRUE in the first scan at or after start + PT, never before, and stays so when
   * PT grows afterwards. A negative PT counts as 0.
   */
  public static void step(long[] cells, int at) {
    if (cells[at + IN] == 0) {
      cells[at + TIMING] = 0;
      cells[at + Q] = 0;
      cells[at + ET] = 0;
      return;
    }
    long now = cells[SystemCells.TIME];
    if (cells[at + TIMING] == 0) {
      cells[at + TIMING] = 1;
      cells[at + START] = now;
      cells[at + PRESET] = cells[at + PT];
    }
    if (cells[at + Q] == 0) {
      long preset = Math.max(0, cells[at + (cells[at + LATCHED] != 0 ? PRESET : PT)]);
      long elapsed = now - cells[at + START];
      cells[at + Q] = elapsed >= preset ? 1 : 0;
      cells[at + ET] = Math.min(elapsed, preset);
    }
  }
}
