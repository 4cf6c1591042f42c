package bufferstop.program;

import bufferstop.st.Expression;

/**
 * One declared function block: evaluates its inputs, keeps its memory, writes its outputs' cells.
 */
abstract class BlockInstance {
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
      case CTU ->
          new Counter(new Counter.Inputs(in[0], null, in[1], null, in[2]), out[0], -1, out[1]);
      case CTD ->
          new Counter(new Counter.Inputs(null, in[0], null, in[1], in[2]), -1, out[0], out[1]);
      case CTUD ->
          new Counter(
              new Counter.Inputs(in[0], in[1], in[2], in[3], in[4]), out[0], out[1], out[2]);
    };
  }

  /** The value of a BOOL input; FALSE when it is not given. */
  static boolean truth(Expression input, long[] cells) {
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
}
