package bufferstop.plant;

import bufferstop.model.Field;

/**
 * One remote I/O node at work. Every cycle the link carries the inputs to the controller and the
 * outputs to the node. While it is down either end goes by its own clock: after the time-out the
 * controller sees the node as lost, and with {@code on_loss: safe} inputs read 0 and the node gives
 * its outputs their safe values. A late link carries everything some cycles late. Nothing is
 * allocated in a step.
 */
final class NodeRun {
  private final Field.Node node;
  private final InputPoint[] inputs;
  private final int[] outputCells; // what the controller gives
  private final int[] remoteCells; // what the node gives
  private final long[] safe;
  private final int okCell;
  private boolean up = true;
  private long sinceCycleMicros;
  private long silentMicros;
  private long[][] late = {}; // images on their way, inputs then outputs
  private int at;
  private final long[] image;

  /**
   * @param outputCells cells of the outputs the node gives, as the controller gives them
   * @param remoteCells their cells as the node gives them
   * @param safe their safe values
   * @param okCell of {@code nodes.NAME.ok}
   */
  NodeRun(
      Field.Node node,
      InputPoint[] inputs,
      int[] outputCells,
      int[] remoteCells,
      long[] safe,
      int okCell) {
    this.node = node;
    this.inputs = inputs;
    this.outputCells = outputCells;
    this.remoteCells = remoteCells;
    this.safe = safe;
    this.okCell = okCell;
    image = new long[inputs.length + outputCells.length];
  }

  String name() {
    return node.name();
  }

  long cycleMicros() {
    return node.cycleMicros();
  }

  /** Fault: the link is cut. */
  void cut() {
    up = false;
  }

  /**
   * Fault: everything arrives so many cycles late; until the first of it does the link is silent.
   */
  void delay(int cycles) {
    late = new long[Math.max(1, cycles)][];
    at = 0;
  }

  /** The link is in order again. */
  void heal() {
    up = true;
    late = new long[0][];
  }

  /** Values at time zero: one exchange, the link in order. */
  void start(long[] cells) {
    take(cells);
    give(cells, image);
    cells[okCell] = 1;
  }

  /** One plant step, after inputs have been filtered and before wires deliver. */
  void step(long[] cells, long stepMicros) {
    silentMicros += stepMicros;
    sinceCycleMicros += stepMicros;
    if (sinceCycleMicros >= node.cycleMicros()) {
      sinceCycleMicros = 0;
      if (up) {
        exchange(cells);
      }
    }
    boolean lost = silentMicros > node.timeoutMicros();
    cells[okCell] = lost ? 0 : 1;
    if (lost && node.onLoss() == Field.OnLoss.SAFE) {
      for (InputPoint input : inputs) {
        input.substitute();
      }
      for (int i = 0; i < remoteCells.length; i++) {
        cells[remoteCells[i]] = safe[i];
      }
    }
  }

  private void exchange(long[] cells) {
    take(cells);
    if (late.length == 0) {
      give(cells, image);
      silentMicros = 0;
      return;
    }
    long[] arrives = late[at];
    late[at] = image.clone(); // a fault is no steady state
    at = (at + 1) % late.length;
    if (arrives != null) {
      give(cells, arrives);
      silentMicros = 0;
    }
  }

  private void take(long[] cells) {
    for (int i = 0; i < inputs.length; i++) {
      image[i] = inputs[i].measured();
    }
    for (int i = 0; i < outputCells.length; i++) {
      image[inputs.length + i] = cells[outputCells[i]];
    }
  }

  private void give(long[] cells, long[] values) {
    for (int i = 0; i < inputs.length; i++) {
      inputs[i].report(values[i]);
    }
    for (int i = 0; i < remoteCells.length; i++) {
      cells[remoteCells[i]] = values[inputs.length + i];
    }
  }
}
