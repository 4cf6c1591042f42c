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

/** The middle of three measurements, common practice for an analogue two out of three. */
public final class MiddleOfThree {
  static final BlockType TYPE =
      new BlockType(
          "MIDDLE_OF_3",
          List.of(
              number("A", "first channel"),
              number("B", "second channel, in the same unit"),
              number("C", "third channel, likewise"),
              truth("A_OK", true, "first channel can be trusted"),
              truth("B_OK", true, "second channel"),
              truth("C_OK", true, "third channel"),
              truth("HIGHER", true, "of two good ones take the higher; FALSE: the lower"),
              real("TOLERANCE", 0, "how far channels may differ, in their unit; 0: not watched"),
              time("DELAY", 0, "how long they may differ further")),
          List.of(
              plain("OUT", Type.LREAL, "middle value, in the unit of the channels"),
              plain("OK", Type.BOOL, "a channel is good"),
              plain("BAD", Type.BOOL, "a channel is bad"),
              plain("DIFFERS", Type.BOOL, "good channels have differed too far for DELAY")),
          List.of(plain("differing", Type.BOOL, ""), moment("since")),
          Body.ofJava(MiddleOfThree.class, MiddleOfThree::step),
          "the middle of three values; a channel that is no number is bad; of none OUT stays");

  private static final int VALUE = 0;
  private static final int CHANNEL_OK = 3;
  private static final int HIGHER = 6;
  private static final int TOLERANCE = 7;
  private static final int DELAY = 8;
  private static final int OUT = 9;
  private static final int OK = 10;
  private static final int BAD = 11;
  private static final int DIFFERS = 12;
  private static final int DIFFERING = 13;
  private static final int CHANNELS = 3;

  private MiddleOfThree() {}

  /** One call. */
  public static void step(long[] cells, int at) {
    int good = 0;
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (int channel = 0; channel < CHANNELS; channel++) {
      double value = Cells.real(cells, at + VALUE + channel);
      if (cells[at + CHANNEL_OK + channel] != 0 && Double.isFinite(value)) {
        good++;
        least = Math.min(least, value);
        greatest = Math.max(greatest, value);
      }
    }
    if (good > 0) {
      double chosen = cells[at + HIGHER] != 0 ? greatest : least;
      Cells.store(cells, at + OUT, good == CHANNELS ? middle(cells, at + VALUE) : chosen);
    }
    Cells.store(cells, at + OK, good > 0);
    Cells.store(cells, at + BAD, good < CHANNELS);
    double tolerance = Cells.real(cells, at + TOLERANCE);
    boolean differ = tolerance > 0 && greatest - least > tolerance;
    Cells.store(
        cells,
        at + DIFFERS,
        Cells.hasLasted(cells, at + DIFFERING, differ, Math.max(0, cells[at + DELAY])));
  }

  private static double middle(long[] cells, int first) {
    double a = Cells.real(cells, first);
    double b = Cells.real(cells, first + 1);
    double c = Cells.real(cells, first + 2);
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  }
}
