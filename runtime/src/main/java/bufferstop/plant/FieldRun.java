package bufferstop.plant;

import bufferstop.image.Forces;
import bufferstop.spi.PlantPicture;
import bufferstop.st.Expression;
import java.util.ArrayList;
import java.util.List;

/**
 * The field of one run: what the wires deliver, hard-wired circuits, plants. One thread calls it; a
 * step allocates nothing.
 */
public final class FieldRun {

  /** What a linked field consists of. */
  record Parts(
      long stepMicros,
      int[] supplyCells,
      Link[] contacts, // from outputs to the circuits, delivered first
      Expression[] circuits,
      int[] circuitCells,
      Link[] wires,
      InputPoint[] inputs,
      int[] goodCells, // by input; negative where nobody asks
      int[] deviceCells, // of devices that no node simulates
      Desk desk,
      NodeRun[] nodes,
      PlantUnit[] plants,
      HazardWatch hazards,
      FaultPanel faults) {}

  private final Parts parts;
  private final boolean[] supplyUp;
  private boolean shown = true; // hazards and peaks of the last scan

  FieldRun(Parts parts) {
    this.parts = parts;
    supplyUp = parts.faults.supplyUp();
  }

  /** Values at time zero: plants at rest, wires settled, nobody pressing. */
  public void start(long[] cells) {
    parts.desk.start(cells);
    showSupplies(cells);
    for (PlantUnit plant : parts.plants) {
      plant.start(cells);
    }
    for (NodeRun node : parts.nodes) {
      node.startOutputs(cells);
    }
    deliver(cells);
    for (InputPoint input : parts.inputs) {
      input.start();
    }
    for (NodeRun node : parts.nodes) {
      node.start(cells);
    }
    for (int device : parts.deviceCells) {
      cells[device] = 1;
    }
  }

  /** The input that is read into that cell, or null. */
  public RealInput realInput(int cell) {
    for (InputPoint input : parts.inputs) {
      if (input.cell() == cell) {
        return input;
      }
    }
    return null;
  }

  /** Leaves it to others to say in its cell whether a node is there. */
  public void leaveNode(String name) {
    for (NodeRun node : parts.nodes) {
      if (node.name().equalsIgnoreCase(name)) {
        node.letOthersTell();
      }
    }
  }

  /** Step 1 of the scan: what the inputs read, then forces. */
  public void takeInputs(long[] cells, Forces forces) {
    for (int i = 0; i < parts.inputs.length; i++) {
      InputPoint input = parts.inputs[i];
      cells[input.cell()] = forces.apply(input.cell(), input.read());
      if (parts.goodCells[i] >= 0) {
        cells[parts.goodCells[i]] = input.isGood() ? 1 : 0;
      }
    }
  }

  /** The field's part of step 8: steps wires, circuits and plants up to the next scan. */
  public void step(long[] cells, long steps) {
    advance(cells, steps);
    parts.hazards.show(cells);
    shown = true;
  }

  /**
   * Steps through periods without a scan; their hazards and peaks show with the next {@link #step}.
   */
  public void advance(long[] cells, long steps) {
    if (shown) {
      beginPeriod(cells);
    }
    for (long i = 0; i < steps; i++) {
      deliver(cells);
      for (InputPoint input : parts.inputs) {
        input.step(parts.stepMicros);
      }
      for (NodeRun node : parts.nodes) {
        node.step(cells, parts.stepMicros);
      }
      for (PlantUnit plant : parts.plants) {
        plant.step(parts.stepMicros, cells);
      }
      parts.hazards.judge(cells);
    }
  }

  private void beginPeriod(long[] cells) {
    for (PlantUnit plant : parts.plants) {
      plant.show(cells); // peaks shown at the end of the last scan are no live values
    }
    parts.hazards.beginScan(cells);
    shown = false;
  }

  private void deliver(long[] cells) {
    showSupplies(cells);
    for (Link contact : parts.contacts) {
      contact.deliver(cells, supplyUp);
    }
    for (int i = 0; i < parts.circuits.length; i++) {
      cells[parts.circuitCells[i]] = parts.circuits[i].truth(cells) ? 1 : 0;
    }
    for (Link wire : parts.wires) {
      wire.deliver(cells, supplyUp);
    }
  }

  private void showSupplies(long[] cells) {
    for (int i = 0; i < supplyUp.length; i++) {
      cells[parts.supplyCells[i]] = supplyUp[i] ? 1 : 0;
    }
  }

  /** Where faults are set and cleared. */
  public FaultPanel faults() {
    return parts.faults;
  }

  /** Where buttons are pressed. */
  public Desk desk() {
    return parts.desk;
  }

  /** Where plants tell what happens in them. */
  public void reportTo(PlantEvents sink) {
    for (PlantUnit plant : parts.plants) {
      plant.reportTo(sink);
    }
  }

  /**
   * A picture of one plant's present state.
   *
   * @param name of the plant, and of the picture where it has one of its own
   * @param svg its picture, empty when it has none
   */
  public record Picture(String name, String svg) {}

  /** Pictures of all plants. */
  public List<Picture> pictures() {
    List<Picture> all = new ArrayList<>();
    for (PlantUnit plant : parts.plants) {
      for (PlantPicture each : plant.pictures()) {
        String own = each.name().isEmpty() ? "" : "-" + each.name();
        all.add(new Picture(plant.name() + own, each.svg()));
      }
    }
    return all;
  }
}
