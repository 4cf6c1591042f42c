package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Fault.Place;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.spi.PlantFault;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.BooleanSupplier;

/** Sets and clears the faults of a run. */
public final class FaultPanel {
  private static final String LOST = "lost";

  private final long stepMicros;
  private final Map<String, WireRun> wires = new TreeMap<>();
  private final List<String> supplies;
  private final boolean[] supplyUp;
  private final Fault[] lostBy; // the last loss of each supply
  private final Map<String, NodeRun> nodes = new TreeMap<>();
  private final Map<String, PlantUnit> plants = new TreeMap<>();

  FaultPanel(
      long stepMicros,
      List<WireRun> wires,
      List<String> supplies,
      List<NodeRun> nodes,
      List<PlantUnit> plants) {
    this.stepMicros = stepMicros;
    wires.forEach(w -> this.wires.put(w.name().toLowerCase(Locale.ROOT), w));
    this.supplies = supplies.stream().map(s -> s.toLowerCase(Locale.ROOT)).toList();
    nodes.forEach(n -> this.nodes.put(n.name().toLowerCase(Locale.ROOT), n));
    plants.forEach(p -> this.plants.put(p.name().toLowerCase(Locale.ROOT), p));
    supplyUp = new boolean[supplies.size()];
    Arrays.fill(supplyUp, true);
    lostBy = new Fault[supplies.size()];
  }

  boolean[] supplyUp() {
    return supplyUp;
  }

  /** Resolves a fault; null after a diagnostic. */
  public Switch prepare(Fault fault, Diagnostics problems) {
    return switch (fault.on().place()) {
      case WIRE -> {
        WireRun wire = wire(fault.on().name(), problems);
        yield wire == null ? null : new WireFaultLinker(problems).link(wire, fault, stepMicros);
      }
      case SUPPLY -> prepareSupply(fault, problems);
      case NODE -> {
        NodeRun node = node(fault.on().name(), problems);
        yield node == null ? null : new NodeFaultLinker(problems).link(node, fault, stepMicros);
      }
      case PLANT -> preparePlant(fault, problems);
    };
  }

  /** Resolves the clearing of whatever is on a target; null after a diagnostic. */
  public Switch prepareClear(Fault.Target on, Diagnostics problems) {
    switch (on.place()) {
      case WIRE -> {
        WireRun wire = wire(on.name(), problems);
        return wire == null ? null : cells -> wire.clear();
      }
      case SUPPLY -> {
        int supply = supply(on.name(), problems);
        return supply < 0 ? null : cells -> supplyBack(supply);
      }
      case NODE -> {
        NodeRun node = node(on.name(), problems);
        return node == null ? null : cells -> node.heal();
      }
      default -> {
        PlantUnit plant = plant(on.name(), problems);
        return plant == null ? null : cells -> clearAll(plant);
      }
    }
  }

  /**
   * Resolves the end of one fault: unlike clearing, it leaves alone what else is wrong with the
   * same target. Null after a diagnostic.
   *
   * @param fault as given to {@link #prepare}, the same object
   */
  public Switch prepareEnd(Fault fault, Diagnostics problems) {
    switch (fault.on().place()) {
      case WIRE -> {
        WireRun wire = wire(fault.on().name(), problems);
        return wire == null ? null : cells -> wire.end(fault);
      }
      case SUPPLY -> {
        int supply = supply(fault.on().name(), problems);
        return supply < 0 ? null : cells -> end(supply, fault);
      }
      case NODE -> {
        NodeRun node = node(fault.on().name(), problems);
        return node == null ? null : cells -> node.end(fault);
      }
      default -> {
        PlantUnit plant = plant(fault.on().name(), problems);
        int number = plant == null ? -1 : numberOf(plant, fault);
        return number < 0 ? null : cells -> plant.fault(number, false, 0);
      }
    }
  }

  /** Resolves a wire whose far end is to be held at values; null after a diagnostic. */
  public WireHold prepareHold(Name name, Diagnostics problems) {
    WireRun wire = wire(name, problems);
    Fault.Target on = new Fault.Target(Fault.Place.WIRE, name);
    return wire == null
        ? null
        : new WireHold(wire, new Fault(on, new Name("stuck", name.position()), null, 0));
  }

  /**
   * A fault that can be set.
   *
   * @param value what its value is where none is given; NaN when it takes none
   * @param unit of the value
   * @param active whether it is on now, whoever set it
   * @param ending ends it, whoever set it; what else is wrong stays
   */
  public record Possible(
      Fault.Place place,
      String name,
      String mode,
      double value,
      String unit,
      BooleanSupplier active,
      Runnable ending) {}

  /** Every fault that can be set, in a fixed order. */
  public List<Possible> possible() {
    List<Possible> all = new ArrayList<>();
    for (WireRun wire : wires.values()) {
      for (WireFaultMode mode : WireFaultMode.values()) {
        if (mode.fits(wire.isBool())) {
          String word = mode.word();
          BooleanSupplier active =
              () -> wire.cause() != null && wire.cause().mode().text().equalsIgnoreCase(word);
          all.add(
              new Possible(
                  Place.WIRE, wire.name(), word, mode.usualValue(), "", active, wire::clear));
        }
      }
    }
    for (int i = 0; i < supplies.size(); i++) {
      int supply = i;
      BooleanSupplier active = () -> !supplyUp[supply];
      Runnable ending = () -> supplyBack(supply);
      all.add(new Possible(Place.SUPPLY, supplies.get(i), LOST, Double.NaN, "", active, ending));
    }
    for (NodeRun node : nodes.values()) {
      for (boolean cut : new boolean[] {true, false}) {
        BooleanSupplier active = () -> node.is(cut);
        Runnable ending = () -> node.mend(cut);
        String mode = cut ? LOST : "late";
        all.add(new Possible(Place.NODE, node.name(), mode, Double.NaN, "", active, ending));
      }
    }
    plants.values().forEach(p -> addFaults(p, all));
    return all;
  }

  private static void addFaults(PlantUnit plant, List<Possible> all) {
    for (int i = 0; i < plant.faults().size(); i++) {
      PlantFault fault = plant.faults().get(i);
      int number = i;
      double value = fault.min() == fault.max() ? Double.NaN : fault.max();
      all.add(
          new Possible(
              Place.PLANT,
              plant.name(),
              fault.name(),
              value,
              fault.unit(),
              () -> plant.isFaulty(number),
              () -> plant.fault(number, false, 0)));
    }
  }

  private void supplyBack(int supply) {
    supplyUp[supply] = true;
    lostBy[supply] = null;
  }

  private void end(int supply, Fault fault) {
    if (lostBy[supply] == fault) {
      supplyBack(supply);
    }
  }

  private static int numberOf(PlantUnit plant, Fault fault) {
    List<String> names = plant.faults().stream().map(PlantFault::name).toList();
    return names.indexOf(fault.mode().text().toLowerCase(Locale.ROOT));
  }

  private static void clearAll(PlantUnit plant) {
    for (int i = 0; i < plant.faults().size(); i++) {
      plant.fault(i, false, 0);
    }
  }

  private Switch prepareSupply(Fault fault, Diagnostics problems) {
    int supply = supply(fault.on().name(), problems);
    if (!fault.mode().text().equalsIgnoreCase(LOST)) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_FAULT,
                  fault.mode().position(),
                  "no supply fault called `" + fault.mode().text() + "`")
              .expected("lost"));
      return null;
    }
    FaultWording wording = new FaultWording(problems);
    if (!wording.hasNoValue(fault) || !wording.hasNoTime(fault) || supply < 0) {
      return null;
    }
    return cells -> {
      supplyUp[supply] = false;
      lostBy[supply] = fault;
    };
  }

  private Switch preparePlant(Fault fault, Diagnostics problems) {
    PlantUnit plant = plant(fault.on().name(), problems);
    if (plant == null) {
      return null;
    }
    List<String> names = plant.faults().stream().map(PlantFault::name).toList();
    int number = numberOf(plant, fault);
    if (number < 0) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_FAULT,
                  fault.mode().position(),
                  "plant `" + plant.name() + "` has no fault `" + fault.mode().text() + "`")
              .expected(String.join(", ", names))
              .help(NearNames.question(fault.mode().text(), names)));
      return null;
    }
    return new FaultWording(problems).hasNoTime(fault)
        ? amount(plant, number, fault, problems)
        : null;
  }

  private Switch amount(PlantUnit plant, int number, Fault fault, Diagnostics problems) {
    PlantFault declared = plant.faults().get(number);
    Long bits =
        fault.value() == null
            ? null
            : ExpressionReader.literal(fault.value(), Type.LREAL, problems);
    if (fault.value() != null && bits == null) {
      return null;
    }
    double amount = bits == null ? declared.max() : Double.longBitsToDouble(bits);
    if (amount < declared.min() || amount > declared.max()) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE, fault.value().whole(), "an amount of " + Values.number(amount))
              .expected(
                  "from "
                      + Values.number(declared.min())
                      + " to "
                      + Values.number(declared.max())
                      + " "
                      + declared.unit()));
      return null;
    }
    return cells -> plant.fault(number, true, amount);
  }

  private WireRun wire(Name name, Diagnostics problems) {
    WireRun wire = wires.get(name.text().toLowerCase(Locale.ROOT));
    if (wire == null) {
      List<String> names = wires.values().stream().map(WireRun::name).toList();
      unknown("wire", name, names, problems);
    }
    return wire;
  }

  private int supply(Name name, Diagnostics problems) {
    int supply = supplies.indexOf(name.text().toLowerCase(Locale.ROOT));
    if (supply < 0) {
      unknown("supply", name, supplies, problems);
    }
    return supply;
  }

  private NodeRun node(Name name, Diagnostics problems) {
    NodeRun node = nodes.get(name.text().toLowerCase(Locale.ROOT));
    if (node == null) {
      unknown("node", name, List.copyOf(nodes.keySet()), problems);
    }
    return node;
  }

  private PlantUnit plant(Name name, Diagnostics problems) {
    PlantUnit plant = plants.get(name.text().toLowerCase(Locale.ROOT));
    if (plant == null) {
      unknown("plant", name, List.copyOf(plants.keySet()), problems);
    }
    return plant;
  }

  private static void unknown(String what, Name name, List<String> known, Diagnostics problems) {
    Position at = name.position();
    problems.add(
        Diagnostic.error(Code.UNKNOWN_NAME, at, "no " + what + " named `" + name.text() + "`")
            .expected("a " + what + " of the project")
            .help(NearNames.question(name.text(), known)));
  }
}
