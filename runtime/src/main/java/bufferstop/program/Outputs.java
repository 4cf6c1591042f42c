package bufferstop.program;

import bufferstop.image.Forces;

/**
 * The outputs, step 6 of the scan: what the program says, then forces, then the safe values of
 * whatever acts on an output, which win and are written back so that nothing seals itself in behind
 * them. A trip also keeps its BOOL outputs safe after its reset until the program itself has let go
 * of them once, so that a reset restarts nothing.
 */
final class Outputs {
  private final boolean[] lockable; // BOOL: a quantity may never meet its safe value by itself
  private final int[] program; // cell the controller sees
  private final int[] given; // cell the field sees
  private final long[] safe;
  private final boolean[] held; // an interlock or trip acts in this scan
  private final boolean[] tripped; // a trip acts in this scan
  private final boolean[] locked; // tripped, and not let go since

  Outputs(boolean[] lockable, int[] program, int[] given, long[] safe) {
    this.lockable = lockable;
    this.program = program;
    this.given = given;
    this.safe = safe;
    held = new boolean[program.length];
    tripped = new boolean[program.length];
    locked = new boolean[program.length];
  }

  int count() {
    return program.length;
  }

  /** Forgets what acted in the last scan. */
  void beginScan() {
    for (int i = 0; i < held.length; i++) {
      held[i] = false;
      tripped[i] = false;
    }
  }

  /** Holds an output at its safe value in this scan. */
  void hold(int output, boolean byTrip) {
    held[output] = true;
    tripped[output] |= byTrip;
  }

  /** Gives every output to the field. */
  void give(long[] cells, Forces forces) {
    for (int i = 0; i < program.length; i++) {
      boolean letGo = cells[program[i]] == safe[i];
      locked[i] = lockable[i] && (tripped[i] || locked[i] && !letGo);
      if (held[i] || locked[i]) {
        cells[program[i]] = safe[i];
        cells[given[i]] = safe[i];
      } else {
        cells[given[i]] = forces.apply(given[i], cells[program[i]]);
      }
    }
  }

  /** Gives every output its safe value, whatever the program says. */
  void giveSafe(long[] cells) {
    for (int i = 0; i < program.length; i++) {
      cells[program[i]] = safe[i];
      cells[given[i]] = safe[i];
    }
  }
}
