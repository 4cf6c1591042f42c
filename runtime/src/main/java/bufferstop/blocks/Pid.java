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
 * Controller in the standard form (ISA), with setpoint weights, derivative filter and tracking:
 *
 * <p>OUT = GAIN ((B SP - PV) + 1/TI integral(SP - PV) + TD d/dt of (C SP - PV) filtered with TD/N).
 *
 * <p>Source: K. J. Astrom, T. Hagglund, Advanced PID Control, ISA 2006, chapters 2 and 3 [from
 * memory, not re-read]. Signals are taken to hold their values from call to call; for such signals
 * integral and derivative are exact, however far apart the calls are.
 */
public final class Pid {
  static final BlockType TYPE =
      new BlockType(
          "PID",
          List.of(
              number("PV", "measured value, in its unit"),
              number("SP", "setpoint, in the unit of PV"),
              real("GAIN", 1, "units of OUT a unit of PV"),
              time("TI", 0, "integral time; 0: no integral action"),
              time("TD", 0, "derivative time; 0: no derivative action"),
              real("N", 10, "the derivative is filtered with TD/N, above 0"),
              real("B", 1, "setpoint weight of the proportional part"),
              real("C", 0, "setpoint weight of the derivative; 0: derivative on PV"),
              real("OUT_LOW", 0, "least OUT, in its unit"),
              real("OUT_HIGH", 100, "greatest OUT"),
              truth("DIRECT", false, "OUT rises with PV (cooling); FALSE: falls with it (heating)"),
              truth("AUTO", true, "the block sets OUT; FALSE: MANUAL does, once it has changed"),
              real("MANUAL", 0, "OUT in manual, in its unit"),
              truth("TRACK", false, "OUT is TRACKED, whatever AUTO says"),
              real("TRACKED", 0, "OUT while TRACK, in its unit"),
              time("TT", 0, "tracking time of back-calculation; 0: the integral waits at a limit")),
          List.of(
              plain("OUT", Type.LREAL, "to the actuator, in its unit"),
              plain("P", Type.LREAL, "proportional part, unit of OUT"),
              plain("I", Type.LREAL, "integral part, likewise"),
              plain("D", Type.LREAL, "derivative part, likewise"),
              plain("LIMITED", Type.BOOL, "the parts together are outside the limits"),
              plain(
                  "ERR",
                  Type.BOOL,
                  "an input is no number, or settings contradict: OUT stays, unless"
                      + " in manual or tracking")),
          List.of(
              plain("called", Type.BOOL, ""),
              moment("last"),
              plain("primed", Type.BOOL, ""),
              plain("engaged", Type.BOOL, ""),
              plain("begun", Type.BOOL, ""),
              plain("error", Type.LREAL, ""),
              plain("excess", Type.LREAL, ""),
              plain("weighted", Type.LREAL, ""),
              plain("smooth", Type.LREAL, ""),
              plain("seen", Type.LREAL, ""),
              plain("moved", Type.BOOL, "")),
          Body.ofJava(Pid.class, Pid::step),
          "controller in the standard form; bumpless between automatic, manual and tracking");

  private static final int PV = 0;
  private static final int SP = 1;
  private static final int GAIN = 2;
  private static final int TI = 3;
  private static final int TD = 4;
  private static final int N = 5;
  private static final int B = 6;
  private static final int C = 7;
  private static final int OUT_LOW = 8;
  private static final int OUT_HIGH = 9;
  private static final int DIRECT = 10;
  private static final int AUTO = 11;
  private static final int MANUAL = 12;
  private static final int TRACK = 13;
  private static final int TRACKED = 14;
  private static final int TT = 15;
  private static final int OUT = 16;
  private static final int P = 17;
  private static final int I = 18;
  private static final int D = 19;
  private static final int LIMITED = 20;
  private static final int ERR = 21;
  private static final int CALLED = 22;
  private static final int PRIMED = 24; // the last call was in order
  private static final int ENGAGED = 25; // it was automatic too
  private static final int BEGUN = 26; // OUT has been given once
  private static final int ERROR = 27; // what the integral adds up, as it was at the last call
  private static final int EXCESS = 28; // the parts beyond the limits, likewise
  private static final int WEIGHTED = 29; // C SP - PV, likewise
  private static final int SMOOTH = 30; // the same filtered
  private static final int SEEN = 31; // MANUAL at the last call
  private static final int MOVED = 32; // it has changed since manual began

  private Pid() {}

  /** One call. */
  public static void step(long[] cells, int at) {
    double seconds = Cells.secondsSince(cells, at + CALLED);
    boolean tracks = cells[at + TRACK] != 0;
    boolean automatic = !tracks && cells[at + AUTO] != 0;
    boolean limits =
        Cells.areNumbers(cells, at + OUT_LOW, 2)
            && Cells.real(cells, at + OUT_LOW) <= Cells.real(cells, at + OUT_HIGH);
    boolean given = limits && (automatic || byHand(cells, at, tracks ? TRACKED : MANUAL));
    boolean inOrder = limits && inOrder(cells, at) && partsOfThisCall(cells, at, seconds);
    if (inOrder) {
      if (automatic) {
        automatic(cells, at, seconds);
      } else {
        meet(cells, at);
      }
      double error = Cells.real(cells, at + SP) - Cells.real(cells, at + PV);
      Cells.store(cells, at + ERROR, error);
    }
    Cells.store(cells, at + PRIMED, inOrder);
    Cells.store(cells, at + ENGAGED, inOrder && automatic);
    Cells.store(cells, at + ERR, !inOrder || !given);
    cells[at + SEEN] = cells[at + MANUAL];
    cells[at + MOVED] &= tracks || automatic ? 0 : 1;
  }

  private static boolean inOrder(long[] cells, int at) {
    return Cells.areNumbers(cells, at + PV, 3)
        && Cells.areNumbers(cells, at + N, 3)
        && Cells.real(cells, at + N) > 0;
  }

  /** OUT in manual or tracking; returns whether there was a number to give. */
  private static boolean byHand(long[] cells, int at, int from) {
    double asked = Cells.real(cells, at + from);
    boolean isNumber = Double.isFinite(asked);
    if (isNumber && (cells[at + BEGUN] == 0 || asked != Cells.real(cells, at + SEEN))) {
      cells[at + MOVED] = 1;
    }
    boolean takes = isNumber && (from == TRACKED || cells[at + MOVED] != 0);
    give(cells, at, takes ? asked : Cells.real(cells, at + OUT));
    return isNumber;
  }

  /** Gives OUT what fits of it, and keeps what does not. */
  private static void give(long[] cells, int at, double wanted) {
    double low = Cells.real(cells, at + OUT_LOW);
    double high = Cells.real(cells, at + OUT_HIGH);
    double out = Math.max(low, Math.min(high, wanted));
    Cells.store(cells, at + OUT, out);
    Cells.store(cells, at + EXCESS, wanted - out);
    Cells.store(cells, at + LIMITED, wanted != out);
    cells[at + BEGUN] = 1;
  }

  /** Sets P and D; returns whether they are numbers. */
  private static boolean partsOfThisCall(long[] cells, int at, double seconds) {
    double gain = signedGain(cells, at);
    double n = Cells.real(cells, at + N);
    double pv = Cells.real(cells, at + PV);
    double sp = Cells.real(cells, at + SP);
    double td = Cells.seconds(cells, at + TD);
    double proportional = gain * (Cells.real(cells, at + B) * sp - pv);
    double weighted = Cells.real(cells, at + C) * sp - pv;
    double smooth = weighted;
    if (td > 0 && cells[at + PRIMED] != 0) {
      double smoothed = Cells.real(cells, at + SMOOTH);
      smooth = Cells.lagged(smoothed, Cells.real(cells, at + WEIGHTED), seconds, td / n);
    }
    double derivative = gain * n * (weighted - smooth);
    if (!Double.isFinite(proportional) || !Double.isFinite(derivative)) {
      return false;
    }
    Cells.store(cells, at + P, proportional);
    Cells.store(cells, at + D, derivative);
    Cells.store(cells, at + WEIGHTED, weighted);
    Cells.store(cells, at + SMOOTH, smooth);
    return true;
  }

  private static double signedGain(long[] cells, int at) {
    double gain = Cells.real(cells, at + GAIN);
    return cells[at + DIRECT] != 0 ? -gain : gain;
  }

  private static void automatic(long[] cells, int at, double seconds) {
    if (cells[at + ENGAGED] != 0) {
      integrate(cells, at, seconds);
    } else if (cells[at + BEGUN] != 0) {
      meet(cells, at);
    }
    double without = Cells.real(cells, at + P) + Cells.real(cells, at + D);
    give(cells, at, without + Cells.real(cells, at + I));
  }

  /** Sets the integral so that the parts together are OUT: what comes next begins there. */
  private static void meet(long[] cells, int at) {
    double without = Cells.real(cells, at + P) + Cells.real(cells, at + D);
    keep(cells, at, Cells.real(cells, at + OUT) - without);
  }

  /** Adds what the error of the last call comes to until this one, unless a limit forbids it. */
  private static void integrate(long[] cells, int at, double seconds) {
    double ti = Cells.seconds(cells, at + TI);
    double tt = Cells.seconds(cells, at + TT);
    double excess = Cells.real(cells, at + EXCESS);
    double rise = ti > 0 ? signedGain(cells, at) * Cells.real(cells, at + ERROR) / ti : 0;
    double more = rise * seconds;
    if (excess != 0 && tt > 0) {
      more = Cells.lagged(excess, rise * tt, seconds, tt) - excess;
    } else if (excess > 0 && rise > 0 || excess < 0 && rise < 0) {
      more = 0;
    }
    keep(cells, at, Cells.real(cells, at + I) + more);
  }

  private static void keep(long[] cells, int at, double integral) {
    if (Double.isFinite(integral)) {
      Cells.store(cells, at + I, integral);
    }
  }
}
