package bufferstop.blocks;

import static bufferstop.blocks.Cells.number;
import static bufferstop.st.BlockType.Pin.plain;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Comparator with a level to turn on and one to turn off. */
public final class Hysteresis {
  static final BlockType TYPE =
      new BlockType(
          "HYSTERESIS",
          List.of(
              number("IN", "signal"),
              number("ON", "level that turns Q on, in the unit of IN"),
              number("OFF", "level that turns Q off, likewise; above ON, Q is on when IN is low")),
          List.of(plain("Q", Type.BOOL, "on"), Cells.err()),
          List.of(),
          Body.ofJava(Hysteresis.class, Hysteresis::step),
          "Q on at ON, off at OFF, in between as it was; at both levels at once it is on");

  private static final int IN = 0;
  private static final int ON = 1;
  private static final int OFF = 2;
  private static final int Q = 3;
  private static final int ERR = 4;

  private Hysteresis() {}

  /** One call. Levels are inclusive. */
  public static void step(long[] cells, int at) {
    double in = Cells.real(cells, at + IN);
    double on = Cells.real(cells, at + ON);
    double off = Cells.real(cells, at + OFF);
    boolean inOrder = Cells.areNumbers(cells, at + IN, 3);
    Cells.store(cells, at + ERR, !inOrder);
    if (!inOrder) {
      return;
    }
    boolean onWhenHigh = on >= off;
    if (onWhenHigh ? in >= on : in <= on) {
      cells[at + Q] = 1;
    } else if (onWhenHigh ? in <= off : in >= off) {
      cells[at + Q] = 0;
    }
  }
}
