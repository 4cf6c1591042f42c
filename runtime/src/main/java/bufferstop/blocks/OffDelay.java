package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;

import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Off-delay timer, TOF. Source: IEC 61131-3:2003, Table 37 [from memory, not re-read]. */
public final class OffDelay {
  static final BlockType TYPE =
      new BlockType(
          "TOF",
          List.of(
              required("IN", Type.BOOL, "its fall starts the time"),
              required("PT", Type.TIME, "preset"),
              Preset.latched()),
          List.of(
              plain("Q", Type.BOOL, "IN, its fall delayed"),
              plain("ET", Type.TIME, "elapsed time")),
          List.of(plain("falling", Type.BOOL, ""), moment("start"), plain("preset", Type.TIME, "")),
          Body.ofJava(OffDelay.class, OffDelay::step),
          "Q follows IN up at once, down PT later");

  private static final int IN = 0;
  private static final int PT = 1;
  private static final int LATCHED = 2;
  private static final int Q = 3;
  private static final int ET = 4;
  private static final int FALLING = 5;
  private static final int START = 6;
  private static final int PRESET = 7;

  private OffDelay() {}

  /** One call. Q falls in the first scan at or after the fall of IN + PT. */
  public static void step(long[] cells, int at) {
    if (cells[at + IN] != 0) {
      cells[at + Q] = 1;
      cells[at + FALLING] = 0;
      cells[at + ET] = 0;
    } else if (cells[at + Q] != 0) {
      long now = cells[SystemCells.TIME];
      if (cells[at + FALLING] == 0) {
        cells[at + FALLING] = 1;
        cells[at + START] = now;
        cells[at + PRESET] = cells[at + PT];
      }
      long preset = Math.max(0, cells[at + (cells[at + LATCHED] != 0 ? PRESET : PT)]);
      long elapsed = now - cells[at + START];
      cells[at + ET] = Math.min(elapsed, preset);
      cells[at + Q] = elapsed < preset ? 1 : 0;
    }
  }
}
