package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/**
 * Counters: reset first, then load, then counting; two edges of one scan count nothing. They count
 * past PV and below 0 up to the limits of INT. A level at start-up counts, as in the standard's
 * body. Source: IEC 61131-3:2003, Table 36 [from memory, not re-read]; the limits [project choice:
 * they are implementation-dependent].
 */
final class Counters {
  private static final long GREATEST = Short.MAX_VALUE;
  private static final long LEAST = Short.MIN_VALUE;

  private Counters() {}

  private static BlockType.Pin value() {
    return plain("CV", Type.INT, "count");
  }

  private static BlockType.Pin preset() {
    return required("PV", Type.INT, "preset");
  }

  private static long counted(long value, long up, long down) {
    if (up != 0 && down == 0 && value < GREATEST) {
      return value + 1;
    }
    return down != 0 && up == 0 && value > LEAST ? value - 1 : value;
  }

  /** CTU. */
  public static final class Up {
    static final BlockType TYPE =
        new BlockType(
            "CTU",
            List.of(
                required("CU", Type.BOOL, "counts up"), plain("R", Type.BOOL, "to 0"), preset()),
            List.of(plain("Q", Type.BOOL, "CV >= PV"), value()),
            List.of(plain("last", Type.BOOL, "")),
            Body.ofJava(Up.class, Up::step),
            "counts rising edges of CU; Q at CV >= PV; R sets CV to 0");

    private static final int CU = 0;
    private static final int R = 1;
    private static final int PV = 2;
    private static final int Q = 3;
    private static final int CV = 4;
    private static final int LAST = 5;

    private Up() {}

    /** One call. */
    public static void step(long[] cells, int at) {
      long up = cells[at + CU] & ~cells[at + LAST];
      cells[at + CV] = cells[at + R] != 0 ? 0 : counted(cells[at + CV], up, 0);
      cells[at + LAST] = cells[at + CU];
      cells[at + Q] = cells[at + CV] >= cells[at + PV] ? 1 : 0;
    }
  }

  /** CTD. */
  public static final class Down {
    static final BlockType TYPE =
        new BlockType(
            "CTD",
            List.of(
                required("CD", Type.BOOL, "counts down"),
                required("LD", Type.BOOL, "to PV"),
                preset()),
            List.of(plain("Q", Type.BOOL, "CV <= 0"), value()),
            List.of(plain("last", Type.BOOL, "")),
            Body.ofJava(Down.class, Down::step),
            "counts rising edges of CD down; Q at CV <= 0; LD sets CV to PV");

    private static final int CD = 0;
    private static final int LD = 1;
    private static final int PV = 2;
    private static final int Q = 3;
    private static final int CV = 4;
    private static final int LAST = 5;

    private Down() {}

    /** One call. */
    public static void step(long[] cells, int at) {
      long down = cells[at + CD] & ~cells[at + LAST];
      cells[at + CV] = cells[at + LD] != 0 ? cells[at + PV] : counted(cells[at + CV], 0, down);
      cells[at + LAST] = cells[at + CD];
      cells[at + Q] = cells[at + CV] <= 0 ? 1 : 0;
    }
  }

  /** CTUD. */
  public static final class UpDown {
    static final BlockType TYPE =
        new BlockType(
            "CTUD",
            List.of(
                required("CU", Type.BOOL, "counts up"),
                required("CD", Type.BOOL, "counts down"),
                plain("R", Type.BOOL, "to 0"),
                plain("LD", Type.BOOL, "to PV"),
                preset()),
            List.of(plain("QU", Type.BOOL, "CV >= PV"), plain("QD", Type.BOOL, "CV <= 0"), value()),
            List.of(plain("last_up", Type.BOOL, ""), plain("last_down", Type.BOOL, "")),
            Body.ofJava(UpDown.class, UpDown::step),
            "both; R before LD before counting; two edges of one scan count nothing");

    private static final int CU = 0;
    private static final int CD = 1;
    private static final int R = 2;
    private static final int LD = 3;
    private static final int PV = 4;
    private static final int QU = 5;
    private static final int QD = 6;
    private static final int CV = 7;
    private static final int LAST_UP = 8;
    private static final int LAST_DOWN = 9;

    private UpDown() {}

    /** One call. */
    public static void step(long[] cells, int at) {
      long up = cells[at + CU] & ~cells[at + LAST_UP];
      long down = cells[at + CD] & ~cells[at + LAST_DOWN];
      if (cells[at + R] != 0) {
        cells[at + CV] = 0;
      } else if (cells[at + LD] != 0) {
        cells[at + CV] = cells[at + PV];
      } else {
        cells[at + CV] = counted(cells[at + CV], up, down);
      }
      cells[at + LAST_UP] = cells[at + CU];
      cells[at + LAST_DOWN] = cells[at + CD];
      cells[at + QU] = cells[at + CV] >= cells[at + PV] ? 1 : 0;
      cells[at + QD] = cells[at + CV] <= 0 ? 1 : 0;
    }
  }
}
