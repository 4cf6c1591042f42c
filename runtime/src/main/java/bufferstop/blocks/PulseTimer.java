package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;

import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Pulse timer, TP. Source: IEC 61131-3:2003, Table 37 [from memory, not re-read]. */
public final class PulseTimer {
  static final BlockType TYPE =
      new BlockType(
          "TP",
          List.of(
              required("IN", Type.BOOL, "its rise starts the pulse"),
              required("PT", Type.TIME, "length of the pulse"),
              Preset.latched()),
          List.of(plain("Q", Type.BOOL, "the pulse"), plain("ET", Type.TIME, "elapsed time")),
          List.of(plain("last", Type.BOOL, ""), moment("start"), plain("preset", Type.TIME, "")),
          Body.ofJava(PulseTimer.class, PulseTimer::step),
          "a pulse of PT from a rising edge, not restarted");

  private static final int IN = 0;
  private static final int PT = 1;
  private static final int LATCHED = 2;
  private static final int Q = 3;
  private static final int ET = 4;
  private static final int LAST = 5;
  private static final int START = 6;
  private static final int PRESET = 7;

  private PulseTimer() {}

  /** One call. Nothing shortens or restarts a pulse; a negative PT counts as 0 and gives none. */
  public static void step(long[] cells, int at) {
    long now = cells[SystemCells.TIME];
    boolean in = cells[at + IN] != 0;
    boolean edge = in && cells[at + LAST] == 0;
    boolean running = cells[at + Q] != 0;
    long preset = Math.max(0, cells[at + (cells[at + LATCHED] != 0 && running ? PRESET : PT)]);
    cells[at + LAST] = cells[at + IN];
    if (running && now - cells[at + START] >= preset) {
      running = false;
      cells[at + ET] = preset;
    }
    if (!running && edge && cells[at + PT] > 0) {
      running = true;
      cells[at + START] = now;
      cells[at + PRESET] = cells[at + PT];
    }
    if (running) {
      cells[at + ET] = now - cells[at + START];
    } else if (!in) {
      cells[at + ET] = 0;
    }
    cells[at + Q] = running ? 1 : 0;
  }
}
