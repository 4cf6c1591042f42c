package bufferstop.feeder;

import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Puts a feeder together from its settings, and reports everything that is wrong with them. */
final class Assembly {

  /** Whether anything was reported, on its way to the host. */
  private static final class Counted implements Problems {
    private final Problems to;
    int errors;

    Counted(Problems to) {
      this.to = to;
    }

    @Override
    public void error(Settings at, String parameter, String message, String expected, String help) {
      errors++;
      to.error(at, parameter, message, expected, help);
    }

    @Override
    public void warning(
        Settings at, String parameter, String message, String expected, String help) {
      to.warning(at, parameter, message, expected, help);
    }
  }

  private final Settings settings;
  private final Counted problems;
  private final Draws draws;
  private final double hertz;
  private final Shape shape;
  private final Tree tree;
  private final List<Load> loads = new ArrayList<>();
  private final List<LineFault> faults = new ArrayList<>();
  private final Map<String, Breaker> breakers = new LinkedHashMap<>();
  private final List<ProtectiveDevice> devices = new ArrayList<>();
  private final List<RelayPart> relayParts = new ArrayList<>();
  private final List<MeterPart> meterParts = new ArrayList<>();
  private final List<LoadPart> loadParts = new ArrayList<>();
  private final List<Part> parts = new ArrayList<>();
  private final List<Conductor> conductors = new ArrayList<>();
  private Circuit circuit;

  Assembly(Settings settings, Problems problems, RandomStream random) {
    this.settings = settings;
    this.problems = new Counted(problems);
    draws = new Draws(random);
    hertz = settings.number("frequency");
    new Check(settings, this.problems).run();
    shape = new Shape(settings, this.problems);
    tree = shape.make();
  }

  /** The plant; null after an error. */
  FeederPlant plant() {
    settings.named("loads").forEach(this::load);
    settings.named("faults").forEach(this::fault);
    GeneratingSet set =
        settings.has("generator") ? new GeneratingSet(settings.item("generator"), hertz) : null;
    Source source = new Source(settings.number("volts"), hertz, set);
    Network network = new Network(tree, hertz, loads, faults);
    circuit = new Circuit(network, source, hertz, new Happenings());
    SourcePart sourcePart = new SourcePart(circuit, 1);
    parts.add(sourcePart);
    loads.forEach(l -> loadParts.add(new LoadPart(circuit, l)));
    parts.addAll(loadParts);
    faults.forEach(f -> parts.add(new FaultPart(circuit, f)));
    settings.named("breakers").forEach(this::breaker);
    settings.named("relays").forEach(this::relay);
    settings.named("fuses").forEach(this::fuse);
    settings.named("mcbs").forEach(this::mcb);
    settings.named("coils").forEach(this::coil);
    settings.named("meters").forEach(this::meter);
    if (problems.errors > 0) {
      return null; // the rest would only repeat what is wrong
    }
    lines();
    shape.nodes().forEach((name, node) -> parts.add(new NodePart(circuit, name, node)));
    Balance balance = new Balance(circuit);
    parts.add(balance);
    Coordination coordination =
        new Coordination(tree, devices, conductors, settings.number("grading_interval"));
    coordination.warn(problems);
    return new FeederPlant(
        new Feeder(circuit, sourcePart, parts, loadParts, relayParts, meterParts, balance, draws),
        coordination);
  }

  private void load(String name, Settings s) {
    int node = shape.node(s, "node");
    if (node > 0) {
      loads.add(new Load(LoadData.read(name, s), node, tree.nominalVolts(node)));
    }
  }

  private void fault(String name, Settings s) {
    int node = shape.place(s);
    if (node > 0) {
      double volts = tree.nominalVolts(node);
      FaultData data = FaultData.read(name, s, FaultData.deionisedSeconds(volts, hertz));
      faults.add(new LineFault(data, node, volts, draws));
    }
  }

  private void breaker(String name, Settings s) {
    int branch = shape.branch(s, "line");
    if (branch > 0) {
      Breaker breaker =
          new Breaker(name, s, branch, circuit.network, circuit.happenings, s.bool("closed"));
      breakers.put(name, breaker);
      parts.add(new BreakerPart(circuit, breaker));
    }
  }

  private void relay(String name, Settings s) {
    Breaker breaker = named(s, "breaker");
    Breaker backup = s.text("backup").isEmpty() ? null : named(s, "backup");
    if (breaker != null && breaker == backup) {
      problems.error(
          s,
          "backup",
          "relay `" + name + "` is to be backed up by its own breaker",
          "a breaker towards the source",
          "name the breaker upstream of `" + breaker.name + "`");
    }
    if (breaker != null && problems.errors == 0) {
      Measurement seen = new Measurement(s, breaker.branch, tree, hertz);
      Relay relay = new Relay(name, s, seen, breaker, backup, circuit.happenings);
      devices.add(relay);
      RelayPart part = new RelayPart(circuit, relay);
      relayParts.add(part);
      parts.add(part);
    }
  }

  private Breaker named(Settings s, String parameter) {
    String name = s.text(parameter);
    Breaker breaker = breakers.get(name);
    if (breaker == null && !settings.named("breakers").containsKey(name)) {
      problems.error(
          s,
          parameter,
          "no breaker named `" + name + "`",
          "a breaker of the network",
          NearName.help("breaker", name, settings.named("breakers").keySet()));
    }
    return breaker;
  }

  private void fuse(String name, Settings s) {
    int branch = shape.branch(s, "line");
    if (branch > 0 && problems.errors == 0) {
      Fuse fuse = new Fuse(name, s, branch, circuit.network, circuit.happenings);
      devices.add(fuse);
      parts.add(new DevicePart.OfFuse(circuit, name, fuse));
    }
  }

  private void mcb(String name, Settings s) {
    int branch = shape.branch(s, "line");
    if (branch > 0) {
      MiniatureBreaker mcb =
          new MiniatureBreaker(name, s, branch, circuit.network, circuit.happenings, draws.next());
      devices.add(mcb);
      parts.add(new DevicePart.OfMcb(circuit, name, mcb));
    }
  }

  private void coil(String name, Settings s) {
    int node = shape.node(s, "node");
    if (node > 0) {
      parts.add(new DevicePart.OfCoil(circuit, name, new Coil(s, node, tree.nominalVolts(node))));
    }
  }

  private void meter(String name, Settings s) {
    Load load =
        loads.stream().filter(l -> l.data.name().equals(s.text("load"))).findFirst().orElse(null);
    int branch = load != null || s.text("line").isEmpty() ? -1 : shape.branch(s, "line");
    if (load != null || branch > 0) {
      Meter meter = new Meter(s, tree, branch, load, hertz, draws.next());
      MeterPart part = new MeterPart(circuit, name, meter);
      meterParts.add(part);
      parts.add(part);
    }
  }

  private void lines() {
    shape
        .branches()
        .forEach(
            (name, branch) -> {
              Settings line = settings.named("lines").get(name);
              boolean watched = line != null && line.number("conductor_area") > 0;
              Conductor conductor =
                  watched
                      ? new Conductor(name, line, branch, circuit.network, circuit.happenings)
                      : null;
              if (watched) {
                conductors.add(conductor);
              }
              parts.add(new LinePart(circuit, name, branch, conductor));
            });
  }
}
