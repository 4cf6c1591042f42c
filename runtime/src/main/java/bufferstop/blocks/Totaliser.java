package bufferstop.blocks;

import static bufferstop.blocks.Cells.number;
import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.real;
import static bufferstop.st.BlockType.Pin.time;
import static bufferstop.st.BlockType.Pin.truth;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Totaliser: a rate integrated over time. */
public final class Totaliser {
  private static final long SECOND = 1_000_000;
  private static final double MOST_OWED = 1e15;

  static final BlockType TYPE =
      new BlockType(
          "TOTALISER",
          List.of(
              number("RATE", "amount in a time PER; below 0 counts as 0"),
              time("PER", SECOND, "the time of RATE, above 0: T#1h for kg/h"),
              real("UNIT", 1, "amount a pulse stands for, above 0"),
              truth("R", false, "to 0, while TRUE")),
          List.of(
              plain("TOTAL", Type.LREAL, "amount so far, in the unit of the amount"),
              plain("PULSE", Type.BOOL, "TRUE for one call for each UNIT, FALSE for one after it"),
              Cells.err()),
          List.of(
              plain("called", Type.BOOL, ""),
              moment("last"),
              plain("held", Type.LREAL, ""),
              plain("rest", Type.LREAL, ""),
              plain("part", Type.LREAL, ""),
              plain("part_rest", Type.LREAL, ""),
              plain("owed", Type.LINT, "")),
          Body.ofJava(Totaliser.class, Totaliser::step),
          "adds up a rate over time; small amounts are not lost in a large total");

  private static final int RATE = 0;
  private static final int PER = 1;
  private static final int UNIT = 2;
  private static final int R = 3;
  private static final int TOTAL = 4;
  private static final int PULSE = 5;
  private static final int ERR = 6;
  private static final int CALLED = 7;
  private static final int HELD = 9;
  private static final int REST = 10;
  private static final int PART = 11;
  private static final int PART_REST = 12;
  private static final int OWED = 13;
  private static final int[] RESET = {TOTAL, REST, PART, PART_REST, OWED};

  private Totaliser() {}

  /**
   * One call. A rate counts from the call that sees it to the next. Pulses that come faster than
   * every second call wait.
   */
  public static void step(long[] cells, int at) {
    double seconds = Cells.secondsSince(cells, at + CALLED);
    double per = Cells.seconds(cells, at + PER);
    double amount = Cells.real(cells, at + HELD) * (seconds / per);
    double unit = Cells.real(cells, at + UNIT);
    double rate = Cells.real(cells, at + RATE);
    boolean inOrder =
        Double.isFinite(rate)
            && per > 0
            && unit > 0
            && Double.isFinite(unit)
            && Double.isFinite(amount + Cells.real(cells, at + TOTAL));
    Cells.store(cells, at + ERR, !inOrder);
    if (inOrder) {
      add(cells, at + TOTAL, at + REST, amount);
      add(cells, at + PART, at + PART_REST, amount);
      double units = takeUnits(cells, at + PART, unit);
      cells[at + OWED] = (long) Math.min(cells[at + OWED] + units, MOST_OWED);
      Cells.store(cells, at + HELD, Math.max(0, rate));
    }
    if (cells[at + R] != 0) {
      for (int cell : RESET) {
        cells[at + cell] = 0;
      }
    }
    boolean pulse = cells[at + PULSE] == 0 && cells[at + OWED] > 0;
    cells[at + PULSE] = pulse ? 1 : 0;
    cells[at + OWED] -= cells[at + PULSE];
  }

  /** Adds, and keeps exactly what rounding took away for the next time (Kahan; Knuth's sum). */
  private static void add(long[] cells, int sum, int rest, double amount) {
    double more = amount + Cells.real(cells, rest);
    double before = Cells.real(cells, sum);
    double after = before + more;
    double added = after - before;
    Cells.store(cells, sum, after);
    Cells.store(cells, rest, before - (after - added) + (more - added));
  }

  /** Leaves in the part what is less than a unit; gives how many were in it. */
  private static double takeUnits(long[] cells, int part, double unit) {
    double have = Cells.real(cells, part);
    double left = have % unit;
    Cells.store(cells, part, left);
    return Math.rint((have - left) / unit);
  }
}
