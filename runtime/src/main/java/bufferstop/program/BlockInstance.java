package bufferstop.program;

import bufferstop.st.Expression;

/**
 * One declared function block: evaluates its inputs, keeps its memory, writes its outputs' cells.
 */
abstract class BlockInstance {
  private static final long GREATEST_INT =
      32_767; // PVmax, IEC 61131-3:2003, Table 36, and INT here

  /** Runs once in a scan. */
  abstract void step(long[] cells, long nowMicros);

  /**
   * Makes an instance.
   *
   * @param in expressions in the order of {@link BlockKind#inputs()}; null where not given
   * @param out cells in the order of {@link BlockKind#outputs()}
   */
  static BlockInstance of(BlockKind kind, Expression[] in, int[] out) {
    return switch (kind) {
      case TON -> timed(new OnDelay(), in, out);
      case TOF -> timed(new OffDelay(), in, out);
      case TP -> timed(new PulseTimer(), in, out);
      case R_TRIG -> edge(in, out, true);
      case F_TRIG -> edge(in, out, false);
      case SR -> latch(in, out, true);
      case RS -> latch(in, out, false);
      case CTU -> countUp(in, out);
    };
  }

  private static boolean truth(Expression input, long[] cells) {
    return input != null && input.truth(cells);
  }

  private static BlockInstance timed(Timer timer, Expression[] in, int[] out) {
    return new BlockInstance() {
      @Override
      void step(long[] cells, long nowMicros) {
        boolean q = timer.step(truth(in[0], cells), in[1].bits(cells), nowMicros);
        cells[out[0]] = q ? 1 : 0;
        cells[out[1]] = timer.etMicros();
      }
    };
  }

  /** The memory starts FALSE as in the standard's body, so a level at start-up is an edge. */
  private static BlockInstance edge(Expression[] in, int[] out, boolean rising) {
    return new BlockInstance() {
      private boolean memory;

      @Override
      void step(long[] cells, long nowMicros) {
        boolean level = truth(in[0], cells) == rising;
        cells[out[0]] = level && !memory ? 1 : 0;
        memory = level;
      }
    };
  }

  private static BlockInstance latch(Expression[] in, int[] out, boolean setDominant) {
    return new BlockInstance() {
      @Override
      void step(long[] cells, long nowMicros) {
        boolean set = truth(in[0], cells);
        boolean reset = truth(in[1], cells);
        boolean held = cells[out[0]] != 0;
        boolean q = setDominant ? set || !reset && held : !reset && (set || held);
        cells[out[0]] = q ? 1 : 0;
      }
    };
  }

  private static BlockInstance countUp(Expression[] in, int[] out) {
    return new BlockInstance() {
      private boolean memory;

      @Override
      void step(long[] cells, long nowMicros) {
        boolean cu = truth(in[0], cells);
        if (truth(in[1], cells)) {
          cells[out[1]] = 0;
        } else if (cu && !memory && cells[out[1]] < GREATEST_INT) {
          cells[out[1]]++;
        }
        memory = cu;
        cells[out[0]] = cells[out[1]] >= in[2].bits(cells) ? 1 : 0;
      }
    };
  }
}
