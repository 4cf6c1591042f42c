package bufferstop.plant;

import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.PlantPicture;
import bufferstop.spi.Port;
import java.util.List;

/** One plant of a project: its instance, the values of its ports and the cells they show in. */
final class PlantUnit {
  private final String name;
  private final Plant plant;
  private final List<Port> inputs;
  private final List<Port> outputs;
  private final boolean[] inputIsBool;
  private final List<PlantFault> faults;
  private final int[] inCells;
  private final int[] outCells;
  private final boolean[] faulty; // by number of the fault
  private final double[] in;
  private final double[] out;
  private PlantEvents events = (plantName, text, value, unit) -> {};

  /**
   * @param inCells cell of each declared input
   * @param outCells cell of each declared output
   */
  PlantUnit(String name, Plant plant, int[] inCells, int[] outCells) {
    this.name = name;
    this.plant = plant;
    this.outputs = plant.outputs();
    this.faults = plant.faults();
    this.inCells = inCells;
    this.outCells = outCells;
    faulty = new boolean[faults.size()];
    in = new double[inCells.length];
    out = new double[outCells.length];
    this.inputs = plant.inputs();
    inputIsBool = new boolean[in.length];
    for (int i = 0; i < in.length; i++) {
      inputIsBool[i] = inputs.get(i).bool();
      in[i] = Double.isNaN(inputs.get(i).unwired()) ? 0 : inputs.get(i).unwired();
    }
    List<PlantEvent> declared = plant.events();
    plant.reportTo(
        (event, value) ->
            events.happened(name, declared.get(event).text(), value, declared.get(event).unit()));
  }

  String name() {
    return name;
  }

  List<Port> inputs() {
    return inputs;
  }

  List<Port> outputs() {
    return outputs;
  }

  List<PlantFault> faults() {
    return faults;
  }

  void reportTo(PlantEvents sink) {
    events = sink;
  }

  /** Delivers a value to an input; in effect from the next step on. */
  void deliver(int input, double value) {
    in[input] = value;
  }

  void start(long[] cells) {
    try {
      plant.start(out);
    } catch (RuntimeException e) {
      throw new PlantFailure("plant `" + name + "` failed at its start: " + e, e);
    }
    show(cells);
  }

  void step(long stepMicros, long[] cells) {
    try {
      plant.step(stepMicros, in, out);
    } catch (RuntimeException e) {
      throw new PlantFailure("plant `" + name + "` failed: " + e, e);
    }
    show(cells);
  }

  void fault(int fault, boolean active, double amount) {
    try {
      plant.fault(fault, active, amount);
      faulty[fault] = active;
    } catch (RuntimeException e) {
      String which = faults.get(fault).name();
      throw new PlantFailure("plant `" + name + "` failed at its fault `" + which + "`: " + e, e);
    }
  }

  boolean isFaulty(int fault) {
    return faulty[fault];
  }

  List<PlantPicture> pictures() {
    return plant.pictures();
  }

  /** Shortest pulse of an output in s; infinite when the plant does not tell. */
  double shortestPulse(int output) {
    return plant.shortestPulse(output);
  }

  /** Writes the ports into their cells. */
  void show(long[] cells) {
    for (int i = 0; i < out.length; i++) {
      if (Double.isNaN(out[i])) {
        throw new PlantFailure(
            "plant `" + name + "` gave no number at port `" + outputs.get(i).name() + "`", null);
      }
      cells[outCells[i]] =
          outputs.get(i).bool() ? (out[i] != 0 ? 1 : 0) : Double.doubleToLongBits(out[i]);
    }
    for (int i = 0; i < in.length; i++) {
      cells[inCells[i]] = inBits(i);
    }
  }

  private long inBits(int input) {
    return inputIsBool[input] ? (in[input] != 0 ? 1 : 0) : Double.doubleToLongBits(in[input]);
  }
}
