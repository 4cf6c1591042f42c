package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;

import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/** Pulse generator. */
public final class PulseGenerator {
  static final BlockType TYPE =
      new BlockType(
          "PULSE_GENERATOR",
          List.of(
              required("EN", Type.BOOL, "pulses while TRUE"),
              required("ON", Type.TIME, "Q is TRUE for"),
              required("OFF", Type.TIME, "then FALSE for")),
          List.of(plain("Q", Type.BOOL, "the pulses")),
          List.of(plain("running", Type.BOOL, ""), moment("start")),
          Body.ofJava(PulseGenerator.class, PulseGenerator::step),
          "pulses of ON with gaps of OFF, the first at the rise of EN; they never drift");

  private static final int EN = 0;
  private static final int ON = 1;
  private static final int OFF = 2;
  private static final int Q = 3;
  private static final int RUNNING = 4;
  private static final int START = 5;

  private PulseGenerator() {}

  /** One call. The place in the cycle is told from the rise of EN alone. */
  public static void step(long[] cells, int at) {
    long now = cells[SystemCells.TIME];
    if (cells[at + RUNNING] == 0) {
      cells[at + START] = now;
    }
    cells[at + RUNNING] = cells[at + EN];
    long on = Math.max(0, cells[at + ON]);
    long period = on + Math.max(0, cells[at + OFF]);
    if (period < on) {
      period = Long.MAX_VALUE; // longer than any run
    }
    boolean pulse = period > 0 && (now - cells[at + START]) % period < on;
    Cells.store(cells, at + Q, cells[at + EN] != 0 && pulse);
  }
}
