package bufferstop.program;

import bufferstop.image.Forces;
import bufferstop.st.Expression;
import bufferstop.st.Program;

/**
 * The controller of one run, in the steps of a scan (design: blocks, interlocks, sequences, logic,
 * outputs, alarms). It holds the memory of blocks and latches, so each run needs one of its own.
 * One thread calls it; nothing is allocated after construction.
 */
public final class ControllerProgram {

  /** What a linked controller consists of. */
  record Parts(
      int[] initialCells,
      long[] initialValues,
      BlockInstance[] blocks,
      InterlockGroup[] interlocks,
      SequenceRunner[] sequences,
      ActionTarget[][] actions, // by sequence
      Program logic,
      Outputs outputs,
      AlarmUnit[] alarms,
      Expression acknowledge,
      int anyActiveCell,
      int anyUnacknowledgedCell) {}

  private final Parts parts;
  private boolean lastAcknowledge;

  ControllerProgram(Parts parts) {
    this.parts = parts;
  }

  /** Writes the values of a cold start. */
  public void start(long[] cells) {
    for (int i = 0; i < parts.initialCells.length; i++) {
      cells[parts.initialCells[i]] = parts.initialValues[i];
    }
    for (InterlockGroup interlock : parts.interlocks) {
      interlock.start(cells);
    }
    for (SequenceRunner sequence : parts.sequences) {
      sequence.start(cells);
    }
    parts.outputs.giveSafe(cells);
  }

  /** Step 2: function blocks, in the order written; they see the last scan's steps. */
  public void blocks(long[] cells, long nowMicros) {
    for (BlockInstance block : parts.blocks) {
      block.step(cells, nowMicros);
    }
  }

  /** Step 3: permissives, interlocks, trips, first-out. */
  public void interlocks(long[] cells) {
    parts.outputs.beginScan();
    for (InterlockGroup interlock : parts.interlocks) {
      interlock.step(cells, parts.outputs);
    }
  }

  /** Step 4: one evolution of each sequence. */
  public void sequences(long[] cells, long nowMicros) {
    for (SequenceRunner sequence : parts.sequences) {
      sequence.step(cells, nowMicros);
    }
  }

  /** Step 5: Structured Text, in the order written. */
  public void logic(long[] cells) {
    parts.logic.run(cells);
  }

  /** Step 6: actions, then forces, then safe values. */
  public void outputs(long[] cells, Forces forces) {
    for (int i = 0; i < parts.sequences.length; i++) {
      for (ActionTarget action : parts.actions[i]) {
        action.step(parts.sequences[i], cells);
      }
    }
    parts.outputs.give(cells, forces);
  }

  /** Step 7: alarms. */
  public void alarms(long[] cells, long nowMicros) {
    boolean level = parts.acknowledge != null && parts.acknowledge.truth(cells);
    boolean fresh = level && !lastAcknowledge;
    lastAcknowledge = level;
    boolean anyActive = false;
    boolean anyUnacknowledged = false;
    for (AlarmUnit alarm : parts.alarms) {
      alarm.step(cells, nowMicros, fresh);
      anyActive |= alarm.isActive(cells);
      anyUnacknowledged |= alarm.isUnacknowledged(cells);
    }
    cells[parts.anyActiveCell] = anyActive ? 1 : 0;
    cells[parts.anyUnacknowledgedCell] = anyUnacknowledged ? 1 : 0;
  }

  /** Gives every output its safe value: for the end of a run and for whatever fails. */
  public void makeSafe(long[] cells) {
    parts.outputs.giveSafe(cells);
  }
}
