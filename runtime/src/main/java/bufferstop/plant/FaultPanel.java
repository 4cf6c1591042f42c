package bufferstop.plant;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.spi.PlantFault;
import bufferstop.st.ExpressionReader;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Sets and clears the faults of a run. */
public final class FaultPanel {

  private static final long DEFAULT_DELAY = 100_000;
  private static final long DEFAULT_CHATTER = 3_000;
  private static final long LONGEST_DELAY = 60_000_000;

  private final long stepMicros;
  private final Map<String, WireRun> wires = new TreeMap<>();
  private final List<String> supplies;
  private final boolean[] supplyUp;
  private final Map<String, PlantUnit> plants = new TreeMap<>();

  FaultPanel(long stepMicros, List<WireRun> wires, List<String> supplies, List<PlantUnit> plants) {
    this.stepMicros = stepMicros;
    wires.forEach(w -> this.wires.put(w.name().toLowerCase(Locale.ROOT), w));
    this.supplies = supplies.stream().map(s -> s.toLowerCase(Locale.ROOT)).toList();
    plants.forEach(p -> this.plants.put(p.name().toLowerCase(Locale.ROOT), p));
    supplyUp = new boolean[supplies.size()];
    Arrays.fill(supplyUp, true);
  }

  boolean[] supplyUp() {
    return supplyUp;
  }

  /** Resolves a fault; null after a diagnostic. */
  public Switch prepare(Fault fault, Diagnostics problems) {
    return switch (fault.on().place()) {
      case WIRE -> prepareWire(fault, problems);
      case SUPPLY -> prepareSupply(fault, problems);
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
        return supply < 0 ? null : cells -> supplyUp[supply] = true;
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
      case PLANT -> {
        PlantUnit plant = plant(fault.on().name(), problems);
        int number = plant == null ? -1 : numberOf(plant, fault);
        return number < 0 ? null : cells -> plant.fault(number, false, 0);
      }
      default -> {
        return prepareClear(fault.on(), problems);
      }
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

  private Switch prepareWire(Fault fault, Diagnostics problems) {
    WireRun wire = wire(fault.on().name(), problems);
    if (wire == null) {
      return null;
    }
    WireFaultMode mode = WireFaultMode.named(fault.mode().text());
    if (mode == null || !mode.fits(wire.isBool())) {
      String carries = wire.isBool() ? "a BOOL" : "a quantity";
      String what =
          mode == null
              ? "no wire fault called `" + fault.mode().text() + "`"
              : "`"
                  + mode.word()
                  + "` does not fit wire `"
                  + wire.name()
                  + "`, which carries "
                  + carries;
      problems.add(
          Diagnostic.error(fault.mode().position(), what)
              .expected(String.join(", ", WireFaultMode.words(wire.isBool())))
              .help(WireFaultMode.question(fault.mode().text(), wire.isBool())));
      return null;
    }
    boolean timed = mode == WireFaultMode.DELAY || mode == WireFaultMode.CHATTER;
    if (fault.value() != null && mode != WireFaultMode.STUCK || fault.micros() > 0 && !timed) {
      problems.add(
          Diagnostic.error(
                  fault.mode().position(),
                  "`"
                      + mode.word()
                      + "` takes no "
                      + (timed || fault.micros() == 0 ? "`value`" : "time"))
              .expected("`value` with stuck, `by` with delay, `every` with chatter"));
      return null;
    }
    Switch begin = begin(wire, mode, fault, problems);
    return begin == null
        ? null
        : cells -> {
          begin.act(cells);
          wire.blame(fault);
        };
  }

  private Switch begin(WireRun wire, WireFaultMode mode, Fault fault, Diagnostics problems) {
    return switch (mode) {
      case STUCK -> stuck(wire, fault, problems);
      case DELAY -> delay(wire, fault, problems);
      case CHATTER -> {
        long every = fault.micros() == 0 ? DEFAULT_CHATTER : fault.micros();
        yield cells -> wire.chatter(Math.min(1.0, (double) stepMicros / every));
      }
      default -> cells -> wire.set(mode);
    };
  }

  private Switch stuck(WireRun wire, Fault fault, Diagnostics problems) {
    if (fault.value() == null) {
      return cells -> wire.stick(Double.NaN);
    }
    Type type = wire.isBool() ? Type.BOOL : Type.LREAL;
    Long bits = ExpressionReader.literal(fault.value(), type, problems);
    if (bits == null) {
      return null;
    }
    double value = wire.isBool() ? bits : Double.longBitsToDouble(bits);
    return cells -> wire.stick(value);
  }

  private Switch delay(WireRun wire, Fault fault, Diagnostics problems) {
    long by = fault.micros() == 0 ? DEFAULT_DELAY : fault.micros();
    if (by > LONGEST_DELAY) {
      problems.add(
          Diagnostic.error(fault.mode().position(), "a delay by " + Values.time(by))
              .expected("at most " + Values.time(LONGEST_DELAY)));
      return null;
    }
    int steps = (int) ((by + stepMicros - 1) / stepMicros);
    return cells -> wire.delay(steps);
  }

  private Switch prepareSupply(Fault fault, Diagnostics problems) {
    int supply = supply(fault.on().name(), problems);
    if (!fault.mode().text().equalsIgnoreCase("lost")) {
      problems.add(
          Diagnostic.error(
                  fault.mode().position(), "no supply fault called `" + fault.mode().text() + "`")
              .expected("lost"));
      return null;
    }
    return supply < 0 ? null : cells -> supplyUp[supply] = false;
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
                  fault.mode().position(),
                  "plant `" + plant.name() + "` has no fault `" + fault.mode().text() + "`")
              .expected(String.join(", ", names))
              .help(NearNames.question(fault.mode().text(), names)));
      return null;
    }
    return amount(plant, number, fault, problems);
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
          Diagnostic.error(fault.value().whole(), "an amount of " + Values.number(amount))
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
        Diagnostic.error(at, "no " + what + " named `" + name.text() + "`")
            .expected("a " + what + " of the project")
            .help(NearNames.question(name.text(), known)));
  }
}
