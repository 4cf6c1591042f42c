package bufferstop.blocks;

import static bufferstop.st.BlockType.Pin.moment;
import static bufferstop.st.BlockType.Pin.plain;
import static bufferstop.st.BlockType.Pin.required;
import static bufferstop.st.BlockType.Pin.time;
import static bufferstop.st.BlockType.Pin.truth;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import java.util.List;

/**
 * Two out of three. MooN acts when at least M of N channels ask for it: IEC 61508-6 and IEC
 * 61511-1:2016, clause 3 [from memory, not re-read]. No safety function is made by it.
 */
public final class Vote {
  static final BlockType TYPE =
      new BlockType(
          "VOTE_2OO3",
          List.of(
              required("A", Type.BOOL, "first channel asks to act"),
              required("B", Type.BOOL, "second channel"),
              required("C", Type.BOOL, "third channel"),
              truth("A_OK", true, "first channel can be trusted"),
              truth("B_OK", true, "second channel"),
              truth("C_OK", true, "third channel"),
              truth("BAD_ACTS", true, "a bad channel asks to act; FALSE: the others decide"),
              time("DELAY", 0, "how long channels may differ")),
          List.of(
              plain("Q", Type.BOOL, "act"),
              plain("BAD", Type.BOOL, "a channel is bad"),
              plain("DIFFERS", Type.BOOL, "good channels have differed for DELAY")),
          List.of(plain("differing", Type.BOOL, ""), moment("since")),
          Body.ofJava(Vote.class, Vote::step),
          "Q when two of three ask for it; of two good channels with BAD_ACTS FALSE both must, of"
              + " one that one, of none Q is TRUE");

  private static final int ASKS = 0;
  private static final int OK = 3;
  private static final int BAD_ACTS = 6;
  private static final int DELAY = 7;
  private static final int Q = 8;
  private static final int BAD = 9;
  private static final int DIFFERS = 10;
  private static final int DIFFERING = 11;
  private static final int CHANNELS = 3;

  private Vote() {}

  /** One call. */
  public static void step(long[] cells, int at) {
    int good = 0;
    int asking = 0;
    for (int channel = 0; channel < CHANNELS; channel++) {
      if (cells[at + OK + channel] != 0) {
        good++;
        asking += (int) cells[at + ASKS + channel];
      }
    }
    int needed = cells[at + BAD_ACTS] != 0 ? 2 - (CHANNELS - good) : Math.min(2, good);
    Cells.store(cells, at + Q, asking >= needed);
    Cells.store(cells, at + BAD, good < CHANNELS);
    boolean differ = asking > 0 && asking < good;
    Cells.store(
        cells,
        at + DIFFERS,
        Cells.hasLasted(cells, at + DIFFERING, differ, Math.max(0, cells[at + DELAY])));
  }
}
