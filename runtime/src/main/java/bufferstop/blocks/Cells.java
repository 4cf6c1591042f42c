package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.plain;

import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.st.BlockType.Pin;

/** What the blocks over LREAL do alike: read and store numbers, refuse what is none, tell time. */
final class Cells {
  private static final double MICROS_A_SECOND = 1e6;

  private Cells() {}

  /** The output that tells of a refused call. */
  static Pin err() {
    return plain(
        "ERR", Type.BOOL, "an input is no number, or settings contradict each other: nothing done");
  }

  static Pin number(String name, String text) {
    return Pin.required(name, Type.LREAL, text);
  }

  static double real(long[] cells, int cell) {
    return Double.longBitsToDouble(cells[cell]);
  }

  static void store(long[] cells, int cell, double value) {
    cells[cell] = Double.doubleToRawLongBits(value);
  }

  static void store(long[] cells, int cell, boolean value) {
    cells[cell] = value ? 1 : 0;
  }

  /** Whether each of some LREALs that stand together is neither NaN nor infinite. */
  static boolean areNumbers(long[] cells, int first, int count) {
    for (int cell = first; cell < first + count; cell++) {
      if (!Double.isFinite(real(cells, cell))) {
        return false;
      }
    }
    return true;
  }

  /**
   * Seconds since the last call that asked; 0 in the first.
   *
   * @param called memory: whether there was one; the cell after it keeps its time
   */
  static double secondsSince(long[] cells, int called) {
    long now = cells[SystemCells.TIME];
    long last = cells[called] == 0 ? now : cells[called + 1];
    cells[called] = 1;
    cells[called + 1] = now;
    return (now - last) / MICROS_A_SECOND;
  }

  /**
   * Whether a condition has lasted for a time, in the first call at or after it.
   *
   * @param holding memory: whether it held in the last call; the cell after it keeps since when
   */
  static boolean hasLasted(long[] cells, int holding, boolean holds, long micros) {
    long now = cells[SystemCells.TIME];
    if (holds && cells[holding] == 0) {
      cells[holding + 1] = now;
    }
    store(cells, holding, holds);
    return holds && now - cells[holding + 1] >= micros;
  }

  /** A TIME in seconds; negative counts as 0. */
  static double seconds(long[] cells, int cell) {
    return Math.max(0, cells[cell]) / MICROS_A_SECOND;
  }

  /**
   * A lag of first order one interval later, exactly, for an input that held its value over it.
   *
   * @param seconds length of the interval
   * @param lag time constant in seconds; 0 for none
   */
  static double lagged(double output, double input, double seconds, double lag) {
    return lag <= 0 ? input : output - StrictMath.expm1(-seconds / lag) * (input - output);
  }
}
