package bufferstop.program;

import bufferstop.image.Forces;
import bufferstop.model.Retained;
import bufferstop.st.Compiled;
import bufferstop.st.Statement;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;

/**
 * The controller of one run, in the steps of a scan (design: blocks, interlocks, sequences, logic,
 * outputs, alarms). All it remembers is in the cells. One thread calls it; once it is prepared,
 * nothing is allocated.
 */
public final class ControllerProgram {

  /** Something to be done to the cells once in a scan. */
  @FunctionalInterface
  interface Part {
    void run(long[] cells);
  }

  /**
   * What a linked controller consists of.
   *
   * @param ownCells ranges of the cells it alone writes or remembers: first, end, first, end, ...
   */
  record Parts(
      int[] ownCells,
      int[] initialCells,
      long[] initialValues,
      Statement blocks,
      Statement interlocks,
      Statement sequences,
      Statement logic,
      Statement actions,
      Outputs outputs,
      Statement alarms,
      List<Retained> retained) {}

  private final Parts parts;
  private Part blocks;
  private Part interlocks;
  private Part sequences;
  private Part logic;
  private Part actions;
  private Part alarms;

  ControllerProgram(Parts parts) {
    this.parts = parts;
  }

  /** Compiles the program; to be called once, before the first scan. */
  public void prepare() {
    prepare(statement -> Compiled.of(statement)::run);
  }

  /** Makes the parts ready in the given way. */
  void prepare(Function<Statement, Part> way) {
    blocks = way.apply(parts.blocks);
    interlocks = way.apply(parts.interlocks);
    sequences = way.apply(parts.sequences);
    logic = way.apply(parts.logic);
    actions = way.apply(parts.actions);
    alarms = way.apply(parts.alarms);
  }

  /** Writes the values of a cold start. */
  public void start(long[] cells) {
    for (int i = 0; i < parts.initialCells.length; i++) {
      cells[parts.initialCells[i]] = parts.initialValues[i];
    }
    parts.outputs.giveSafe(cells);
  }

  /** Forgets everything, as when it loses its power: all its cells become FALSE or 0. */
  public void clear(long[] cells) {
    for (int i = 0; i < parts.ownCells.length; i += 2) {
      Arrays.fill(cells, parts.ownCells[i], parts.ownCells[i + 1], 0);
    }
  }

  /** What is declared to outlive a run. */
  public List<Retained> retained() {
    return parts.retained;
  }

  /** Step 2: function blocks, in the order written; they see the last scan's steps. */
  public void blocks(long[] cells) {
    blocks.run(cells);
  }

  /** Step 3: permissives, interlocks, trips, first-out. */
  public void interlocks(long[] cells) {
    parts.outputs.beginScan(cells);
    interlocks.run(cells);
  }

  /** Step 4: one evolution of each sequence. */
  public void sequences(long[] cells) {
    sequences.run(cells);
  }

  /** Step 5: Structured Text, in the order written. */
  public void logic(long[] cells) {
    logic.run(cells);
  }

  /** Step 6: actions, then forces, then safe values. */
  public void outputs(long[] cells, Forces forces) {
    actions.run(cells);
    parts.outputs.give(cells, forces);
  }

  /** Step 7: alarms. */
  public void alarms(long[] cells) {
    alarms.run(cells);
  }

  /** Gives every output its safe value: for the end of a run and for whatever fails. */
  public void makeSafe(long[] cells) {
    parts.outputs.giveSafe(cells);
  }
}
