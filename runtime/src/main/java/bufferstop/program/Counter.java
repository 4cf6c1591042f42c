package bufferstop.program;

import bufferstop.st.Expression;

/**
 * CTU, CTD and CTUD: reset first, then load, then counting; two edges of one scan count nothing. It
 * counts past PV and below 0 up to the limits of INT. Source: IEC 61131-3:2003, Table 36 [from
 * memory, not re-read]; the limits [project choice: they are implementation-dependent].
 */
final class Counter extends BlockInstance {
  private static final long GREATEST = 32_767;
  private static final long LEAST = -32_768;

  /** Expressions of the pins, null for those that a kind lacks or that are not given. */
  record Inputs(
      Expression up, Expression down, Expression reset, Expression load, Expression preset) {}

  private final Inputs in;
  private final int fullCell; // CV >= PV, -1 when the kind lacks it
  private final int emptyCell; // CV <= 0, likewise
  private final int valueCell;
  private boolean lastUp; // as in the standard's body FALSE at first: a level at start-up counts
  private boolean lastDown;

  Counter(Inputs in, int fullCell, int emptyCell, int valueCell) {
    this.in = in;
    this.fullCell = fullCell;
    this.emptyCell = emptyCell;
    this.valueCell = valueCell;
  }

  @Override
  void step(long[] cells, long nowMicros) {
    boolean up = truth(in.up, cells);
    boolean down = truth(in.down, cells);
    long preset = in.preset.bits(cells);
    if (truth(in.reset, cells)) {
      cells[valueCell] = 0;
    } else if (truth(in.load, cells)) {
      cells[valueCell] = preset;
    } else {
      count(up && !lastUp, down && !lastDown, cells);
    }
    lastUp = up;
    lastDown = down;
    put(fullCell, cells[valueCell] >= preset, cells);
    put(emptyCell, cells[valueCell] <= 0, cells);
  }

  private void count(boolean up, boolean down, long[] cells) {
    if (up && !down && cells[valueCell] < GREATEST) {
      cells[valueCell]++;
    } else if (down && !up && cells[valueCell] > LEAST) {
      cells[valueCell]--;
    }
  }

  private static void put(int cell, boolean value, long[] cells) {
    if (cell >= 0) {
      cells[cell] = value ? 1 : 0;
    }
  }
}
