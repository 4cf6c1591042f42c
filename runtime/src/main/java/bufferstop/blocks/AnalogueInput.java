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

/**
 * The signal of a transmitter, scaled and checked. Limits: NAMUR Recommendation NE 43 [seen
 * second-hand]; that they are inclusive, and that the strips between measurement and failure are
 * uncertain [choice].
 */
public final class AnalogueInput {
  private static final double ZERO = 4.0; // mA at 0 %
  private static final double SPAN = 16.0;
  private static final double LOW_FAILURE_LIMIT = 3.6;
  private static final double LEAST_GOOD = 3.8;
  private static final double GREATEST_GOOD = 20.5;
  private static final double HIGH_FAILURE_LIMIT = 21.0;
  private static final long MINUTE = 60_000_000;

  static final BlockType TYPE =
      new BlockType(
          "ANALOGUE_INPUT",
          List.of(
              number("RAW", "signal: mA, or counts of a converter"),
              number("LOW", "value at 0 %, engineering units"),
              number("HIGH", "value at 100 %, likewise; may be below LOW"),
              real("RAW_LOW", ZERO, "RAW at 0 %: 4 mA"),
              real("RAW_HIGH", ZERO + SPAN, "RAW at 100 %: 20 mA; other than RAW_LOW"),
              real("SUBSTITUTE", 0, "VALUE on failure, engineering units; see HOLD"),
              truth(
                  "HOLD", true, "on failure VALUE stays at the last that was OK, if there was one"),
              truth("CHECK", true, "checks by NE 43; FALSE for signals without a live zero"),
              truth("CLAMP", false, "keeps VALUE between LOW and HIGH"),
              time("FILTER", 0, "time constant of a low-pass filter on VALUE; 0: none"),
              time("STRIP_TIME", MINUTE, "UNCERTAIN for so long is a failure; 0: never"),
              time("RETURN_DELAY", 0, "after a failure, OK when RAW has been good for so long")),
          List.of(
              plain("VALUE", Type.LREAL, "engineering units"),
              plain(
                  "OK", Type.BOOL, "VALUE is measured; FALSE: it stands for a signal that failed"),
              plain("UNDER_RANGE", Type.BOOL, "RAW below 0 %, and no failure"),
              plain("OVER_RANGE", Type.BOOL, "RAW above 100 %, and no failure"),
              plain("UNCERTAIN", Type.BOOL, "RAW between 3.6 and 3.8 mA, or 20.5 and 21 mA"),
              plain("LOW_FAILURE", Type.BOOL, "3.6 mA or less: broken wire, dead transmitter"),
              plain("HIGH_FAILURE", Type.BOOL, "21 mA or more: short circuit, or told by it"),
              plain(
                  "ERR",
                  Type.BOOL,
                  "RAW or a setting is no number, or RAW_LOW is RAW_HIGH: a failure like the"
                      + " others")),
          List.of(
              plain("called", Type.BOOL, ""),
              moment("last"),
              plain("strip", Type.BOOL, ""),
              moment("strip_since"),
              plain("good", Type.BOOL, ""),
              moment("good_since"),
              plain("was_ok", Type.BOOL, ""),
              plain("failed", Type.BOOL, ""),
              plain("held", Type.LREAL, "")),
          Body.ofJava(AnalogueInput.class, AnalogueInput::step),
          "scales a 4 to 20 mA signal and checks it by NE 43; ERR too is a failure, VALUE as"
              + " there");

  private static final int RAW = 0;
  private static final int LOW = 1;
  private static final int HIGH = 2;
  private static final int RAW_LOW = 3;
  private static final int RAW_HIGH = 4;
  private static final int SUBSTITUTE = 5;
  private static final int HOLD = 6;
  private static final int CHECK = 7;
  private static final int CLAMP = 8;
  private static final int FILTER = 9;
  private static final int STRIP_TIME = 10;
  private static final int RETURN_DELAY = 11;
  private static final int VALUE = 12;
  private static final int OK = 13;
  private static final int UNDER_RANGE = 14;
  private static final int OVER_RANGE = 15;
  private static final int UNCERTAIN = 16;
  private static final int LOW_FAILURE = 17;
  private static final int HIGH_FAILURE = 18;
  private static final int ERR = 19;
  private static final int CALLED = 20;
  private static final int STRIP = 22;
  private static final int GOOD = 24;
  private static final int WAS_OK = 26;
  private static final int FAILED = 27;
  private static final int HELD = 28;

  private AnalogueInput() {}

  /** One call. */
  public static void step(long[] cells, int at) {
    double seconds = Cells.secondsSince(cells, at + CALLED);
    double rawLow = Cells.real(cells, at + RAW_LOW);
    double share =
        (Cells.real(cells, at + RAW) - rawLow) / (Cells.real(cells, at + RAW_HIGH) - rawLow);
    double value = scaled(cells, at, share);
    boolean err = !Double.isFinite(value);
    Cells.store(cells, at + ERR, err);
    boolean good = judge(cells, at, ZERO + SPAN * share) && !err;
    boolean settled =
        Cells.hasLasted(cells, at + GOOD, good, Math.max(0, cells[at + RETURN_DELAY]));
    boolean ok = good && (cells[at + FAILED] == 0 || settled);
    Cells.store(cells, at + FAILED, !ok);
    if (ok) {
      measured(cells, at, value, seconds);
    } else {
      substitute(cells, at);
    }
    Cells.store(cells, at + OK, ok);
  }

  private static double scaled(long[] cells, int at, double share) {
    double low = Cells.real(cells, at + LOW);
    double high = Cells.real(cells, at + HIGH);
    double value = low + share * (high - low);
    return cells[at + CLAMP] == 0
        ? value
        : Math.max(Math.min(low, high), Math.min(Math.max(low, high), value));
  }

  /** Sets what is told of the signal; returns whether it is good or not uncertain for too long. */
  private static boolean judge(long[] cells, int at, double milliamps) {
    boolean checked = cells[at + CHECK] != 0 && cells[at + ERR] == 0;
    boolean low = checked && milliamps <= LOW_FAILURE_LIMIT;
    boolean high = checked && milliamps >= HIGH_FAILURE_LIMIT;
    boolean outside = milliamps < LEAST_GOOD || milliamps > GREATEST_GOOD;
    boolean strip = checked && outside && !low && !high;
    long most = cells[at + STRIP_TIME] > 0 ? cells[at + STRIP_TIME] : Long.MAX_VALUE;
    boolean tooLong = Cells.hasLasted(cells, at + STRIP, strip, most);
    low |= tooLong && milliamps < ZERO;
    high |= tooLong && milliamps > ZERO;
    boolean good = !low && !high && cells[at + ERR] == 0;
    Cells.store(cells, at + UNCERTAIN, strip);
    Cells.store(cells, at + LOW_FAILURE, low);
    Cells.store(cells, at + HIGH_FAILURE, high);
    Cells.store(cells, at + UNDER_RANGE, good && milliamps < ZERO);
    Cells.store(cells, at + OVER_RANGE, good && milliamps > ZERO + SPAN);
    return good;
  }

  /** The filter starts anew with the first value after a failure. */
  private static void measured(long[] cells, int at, double value, double seconds) {
    double lag = cells[at + OK] == 0 ? 0 : Cells.seconds(cells, at + FILTER);
    double filtered =
        lag <= 0
            ? value
            : Cells.lagged(
                Cells.real(cells, at + VALUE), Cells.real(cells, at + HELD), seconds, lag);
    Cells.store(cells, at + VALUE, Double.isFinite(filtered) ? filtered : value);
    Cells.store(cells, at + HELD, value);
    cells[at + WAS_OK] = 1;
  }

  private static void substitute(long[] cells, int at) {
    boolean holds = cells[at + HOLD] != 0 && cells[at + WAS_OK] != 0;
    if (!holds && Cells.areNumbers(cells, at + SUBSTITUTE, 1)) {
      cells[at + VALUE] = cells[at + SUBSTITUTE];
    }
  }
}
