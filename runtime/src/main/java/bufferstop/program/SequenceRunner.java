package bufferstop.program;

import bufferstop.st.Expression;

/**
 * One sequence: which steps are active and since when. One evolution a scan: every transition is
 * judged on the situation at the start, those that clear do so together, first all deactivations,
 * then all activations, so that a step both left and entered stays active and begins anew. Of
 * transitions that compete for a step the first written wins. Source: IEC 61131-3:2003, 2.6.5
 * [re-read]; IEC 60848 rules 2 to 5 [second-hand]; restart of a step both left and entered [project
 * choice].
 */
final class SequenceRunner {

  /** A transition with its steps by number. */
  record Gate(int[] from, int[] to, Expression when) {}

  private final int[] activeCells; // .X
  private final int[] timeCells; // .T
  private final int[] lateCells; // .late
  private final long[] atLeastMicros;
  private final long[] withinMicros;
  private final int initial;
  private final Gate[] gates;
  private final Expression abortWhen; // null when there is none
  private final int abortTo;
  private final long[] enteredMicros;
  private final boolean[] clearing;
  private final boolean[] leaves;
  private final boolean[] enters;
  private long nowMicros; // of this evolution
  private boolean aborted;
  private boolean abortBegins;

  SequenceRunner(
      int[] activeCells,
      int[] timeCells,
      int[] lateCells,
      long[] atLeastMicros,
      long[] withinMicros,
      int initial,
      Gate[] gates,
      Expression abortWhen,
      int abortTo) {
    this.activeCells = activeCells;
    this.timeCells = timeCells;
    this.lateCells = lateCells;
    this.atLeastMicros = atLeastMicros;
    this.withinMicros = withinMicros;
    this.initial = initial;
    this.gates = gates;
    this.abortWhen = abortWhen;
    this.abortTo = abortTo;
    enteredMicros = new long[activeCells.length];
    clearing = new boolean[gates.length];
    leaves = new boolean[activeCells.length];
    enters = new boolean[activeCells.length];
  }

  /** The initial situation at time zero. */
  void start(long[] cells) {
    cells[activeCells[initial]] = 1;
  }

  /** Whether an abort begins in this scan; stored actions are then cleared. */
  boolean isAbortBeginning() {
    return abortBegins;
  }

  boolean isActive(int step, long[] cells) {
    return cells[activeCells[step]] != 0;
  }

  /** Whether a step became active in this scan; the initial one did not, it was so before. */
  boolean isEntered(int step) {
    return enters[step];
  }

  /** How long a step has been active. */
  long activeMicros(int step) {
    return nowMicros - enteredMicros[step];
  }

  /** Scan time of the last evolution. */
  long nowMicros() {
    return nowMicros;
  }

  /** One evolution. */
  void step(long[] cells, long nowMicros) {
    this.nowMicros = nowMicros;
    clear(enters);
    runTimes(cells);
    boolean before = aborted;
    aborted = abortWhen != null && abortWhen.truth(cells);
    abortBegins = aborted && !before;
    if (aborted) {
      abort(cells);
    } else {
      evolve(cells);
    }
    for (int i = 0; i < lateCells.length; i++) {
      boolean late =
          cells[activeCells[i]] != 0
              && withinMicros[i] > 0
              && cells[timeCells[i]] > withinMicros[i];
      cells[lateCells[i]] = late ? 1 : 0;
    }
  }

  private void runTimes(long[] cells) {
    for (int i = 0; i < activeCells.length; i++) {
      if (cells[activeCells[i]] != 0) {
        cells[timeCells[i]] = activeMicros(i);
      }
    }
  }

  private void abort(long[] cells) {
    for (int i = 0; i < activeCells.length; i++) {
      if (i != abortTo) {
        cells[activeCells[i]] = 0;
      }
    }
    if (cells[activeCells[abortTo]] == 0) {
      enter(abortTo, cells);
    }
  }

  private void evolve(long[] cells) {
    clear(leaves);
    for (int g = 0; g < gates.length; g++) {
      boolean holds = gates[g].when.truth(cells); // all are evaluated, enabled or not
      clearing[g] = holds && isEnabled(gates[g], cells);
      if (clearing[g]) {
        for (int step : gates[g].from) {
          leaves[step] = true;
        }
      }
    }
    for (int i = 0; i < leaves.length; i++) {
      if (leaves[i]) {
        cells[activeCells[i]] = 0;
      }
    }
    for (int g = 0; g < gates.length; g++) {
      if (clearing[g]) {
        for (int step : gates[g].to) {
          enter(step, cells);
        }
      }
    }
  }

  /** All steps before it active for long enough, and none taken by an earlier transition. */
  private boolean isEnabled(Gate gate, long[] cells) {
    for (int step : gate.from) {
      boolean ready = isActive(step, cells) && activeMicros(step) >= atLeastMicros[step];
      if (!ready || leaves[step]) {
        return false;
      }
    }
    return true;
  }

  private static void clear(boolean[] flags) {
    for (int i = 0; i < flags.length; i++) {
      flags[i] = false;
    }
  }

  private void enter(int step, long[] cells) {
    enters[step] = true;
    cells[activeCells[step]] = 1;
    cells[timeCells[step]] = 0;
    enteredMicros[step] = nowMicros;
  }
}
