package bufferstop.plant;

import bufferstop.model.Fault;
import bufferstop.model.Field;

/**
 * One remote I/O node at work. Every cycle the link carries the inputs to the controller and the
 * outputs to the node. While it is down either end goes by its own clock: after the time-out the
 * controller sees the node as lost, and with {@code on_loss: safe} inputs read 0 and the node gives
 * its outputs their safe values. A late link carries everything some cycles late. Nothing is
 * allocated in a step.
 */
final class NodeRun {
  private static final long[][] IN_TIME = {};

  private final Field.Node node;
  private final InputPoint[] inputs;
  private final int[] outputCells; // what the controller gives
  private final int[] remoteCells; // what the node gives
  private final long[] safe;
  private final int okCell;
  private final long[] image; // inputs, then outputs
  private boolean up = true;
  private long sinceCycleMicros;
  private long silentMicros;
  private long[][] late = IN_TIME; // images on their way
  private int at; // the next to arrive
  private int underWay;
  private Fault cutBy; // null when nobody asks for its end
  private Fault lateBy; // likewise
  private boolean told; // a real device says whether it is there

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

  /** Leaves it to others to say whether the node is there. */
  void letOthersTell() {
    told = true;
  }

  /** How many cycles a time is, rounded up, at least one; a cycle takes whole plant steps. */
  int cycles(long micros, long stepMicros) {
    long cycle = (node.cycleMicros() + stepMicros - 1) / stepMicros * stepMicros;
    return (int) Math.max(1, (micros + cycle - 1) / cycle);
  }

  /** Fault: the link is cut, and what was under way does not arrive. */
  void cut(Fault because) {
    up = false;
    cutBy = because;
    underWay = 0;
  }

  /**
   * Fault: everything arrives so many cycles late; until the first of it does the link is silent.
   */
  void delay(int cycles, Fault because) {
    late = new long[cycles][image.length];
    lateBy = because;
    at = 0;
    underWay = 0;
  }

  /** Ends one fault; what else is wrong with the link stays. */
  void end(Fault ended) {
    if (cutBy == ended) {
      up = true;
      cutBy = null;
    }
    if (lateBy == ended) {
      late = IN_TIME;
      lateBy = null;
    }
  }

  /** Whether the link is cut, or else late. */
  boolean is(boolean cut) {
    return cut ? !up : late.length > 0;
  }

  /** Ends the cut, or else the lateness, whoever set it. */
  void mend(boolean cut) {
    if (cut) {
      up = true;
      cutBy = null;
    } else {
      late = IN_TIME;
      lateBy = null;
    }
  }

  /** The link is in order again. */
  void heal() {
    up = true;
    cutBy = null;
    late = IN_TIME;
    lateBy = null;
  }

  /** Outputs at time zero, before anything is delivered. */
  void startOutputs(long[] cells) {
    for (int i = 0; i < remoteCells.length; i++) {
      cells[remoteCells[i]] = cells[outputCells[i]];
    }
  }

  /** Values at time zero: one exchange, the link in order. */
  void start(long[] cells) {
    take(cells);
    give(cells, image);
    cells[okCell] = 1;
  }

  /** One plant step, after wires have delivered and inputs have been filtered. */
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
    if (!told) {
      cells[okCell] = lost ? 0 : 1;
    }
    for (InputPoint input : inputs) {
      input.lose(lost);
    }
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
    if (underWay == late.length) {
      give(cells, late[at]);
      silentMicros = 0;
    } else {
      underWay++;
    }
    System.arraycopy(image, 0, late[at], 0, image.length);
    at = (at + 1) % late.length;
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
