package bufferstop.plant;

import bufferstop.image.Layout;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.spi.Port;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** Resolves both ends of every wire and finds what was left unwired. */
final class Wiring {
  private final Project project;
  private final Layout layout;
  private final long seed;
  private final Diagnostics problems;
  private final Map<String, Integer> sources = new TreeMap<>(); // name to cell
  private final Map<String, Far> sinks = new TreeMap<>();
  private final List<Link> links = new ArrayList<>();
  private final Map<String, InputPoint> inputs = new LinkedHashMap<>(); // by point
  private final Map<Integer, Boolean> usedOutputs = new TreeMap<>();

  /** The far end of a wire: what kind of value it takes and where it lands. */
  private static final class Far {
    final String shown;
    final Type type;
    final Point point; // null unless a controller input
    final Link.Sink sink;
    final boolean required;
    final Position declared;
    Field.Wire taken;

    Far(String shown, Type type, Point point, Link.Sink sink, boolean required, Position declared) {
      this.shown = shown;
      this.type = type;
      this.point = point;
      this.sink = sink;
      this.required = required;
      this.declared = declared;
    }
  }

  Wiring(Project project, Layout layout, long seed, List<PlantUnit> plants, Diagnostics problems) {
    this.project = project;
    this.layout = layout;
    this.seed = seed;
    this.problems = problems;
    collectPoints();
    collectPanel();
    plants.forEach(this::collectPlant);
  }

  List<Link> links() {
    return links;
  }

  Collection<InputPoint> inputs() {
    return inputs.values();
  }

  InputPoint input(Point point) {
    return inputs.get(key(point.name()));
  }

  List<WireRun> runs() {
    return links.stream().map(Link::wire).toList();
  }

  private void collectPoints() {
    for (Point point : project.controller().points()) {
      Symbol symbol = layout.field().find(point.name());
      boolean carried = point.type() == Type.BOOL || point.type().isReal();
      checkNode(point);
      if (point.supply() != null && Contacts.supplyNumber(project, point.supply()) < 0) {
        reportUnknownSupply(point.supply());
      }
      if (point.kind() == Kind.OUTPUT) {
        source(point.name());
      } else if (point.kind() == Kind.INPUT && symbol.kind() == Kind.INPUT) {
        boolean remote = point.node() != null;
        InputPoint input =
            new InputPoint(symbol.index(), point.type(), point.filterMicros(), remote);
        inputs.put(key(point.name()), input);
        reportInput(point, carried);
        boolean needed = !project.field().wires().isEmpty();
        sink(
            point.name(),
            new Far(
                "input",
                point.type(),
                point,
                (value, cells) -> input.arrive(value),
                needed,
                point.position()));
      }
    }
  }

  private void reportInput(Point point, boolean carried) {
    if (!carried) {
      problems.add(
          Diagnostic.error(
                  point.position(),
                  "no wire carries " + point.type() + " to `" + point.name() + "`")
              .expected("BOOL, REAL or LREAL"));
    }
    if (point.filterMicros() > 0 && point.type() != Type.BOOL) {
      problems.add(
          Diagnostic.error(point.position(), "`" + point.name() + "` is no BOOL and has a filter")
              .expected("`filter` on BOOL inputs only"));
    }
  }

  private void checkNode(Point point) {
    List<String> known = project.field().nodes().stream().map(Field.Node::name).toList();
    if (point.node() != null && known.stream().noneMatch(n -> n.equalsIgnoreCase(point.node().text()))) {
      problems.add(
          Diagnostic.error(
                  point.node().position(), "no node named `" + point.node().text() + "`")
              .expected("a name under nodes")
              .help(NearNames.question(point.node().text(), known)));
    }
  }

  private void reportUnknownSupply(Name supply) {
    List<String> known = project.field().supplies().stream().map(Field.Supply::name).toList();
    problems.add(
        Diagnostic.error(supply.position(), "no supply named `" + supply.text() + "`")
            .expected("a name under supplies")
            .help(NearNames.question(supply.text(), known)));
  }

  private void collectPanel() {
    for (Field.Supply supply : project.field().supplies()) {
      source("supplies." + supply.name());
    }
    for (Field.Circuit circuit : project.field().circuits()) {
      source("circuits." + circuit.name());
    }
    for (Field.PanelElement element : project.field().panel()) {
      String name = "panel." + element.name();
      if (element.kind() == Field.ElementKind.PUSH_BUTTON) {
        source(name);
      } else if (element.kind() == Field.ElementKind.SELECTOR) {
        element.positions().forEach(p -> source(Desk.contact(element, p)));
      } else {
        int cell = layout.field().find(name).index();
        sink(
            name,
            new Far(
                element.kind() == Field.ElementKind.LAMP ? "lamp" : "horn",
                Type.BOOL,
                null,
                (value, cells) -> cells[cell] = value != 0 ? 1 : 0,
                true,
                element.position()));
      }
    }
  }

  private void collectPlant(PlantUnit plant) {
    for (int i = 0; i < plant.inputs().size(); i++) {
      Port port = plant.inputs().get(i);
      int number = i;
      String name = plant.name() + "." + port.name();
      sink(
          name,
          new Far(
              "plant input",
              port.bool() ? Type.BOOL : Type.LREAL,
              null,
              (value, cells) -> plant.deliver(number, value),
              Double.isNaN(port.unwired()),
              layout.field().find(name).declared()));
    }
    for (Port port : plant.outputs()) {
      source(plant.name() + "." + port.name());
    }
  }

  private void source(String name) {
    sources.put(key(name), cell(name));
  }

  /** The cell that enters a wire: of an output on a node what the node gives. */
  private int cell(String name) {
    Symbol remote = layout.field().find(name + ".remote");
    return (remote == null ? layout.field().find(name) : remote).index();
  }

  private void sink(String name, Far far) {
    sinks.put(name.toLowerCase(Locale.ROOT), far);
  }

  /** Resolves every wire; {@code contacts} are those of circuits, whose names are taken. */
  void link(Contacts contacts) {
    for (Field.Wire wire : project.field().wires()) {
      for (Link contact : contacts.links()) {
        if (contact.wire().name().equalsIgnoreCase(wire.name())) {
          problems.add(
              Diagnostic.error(wire.position(), "two wires are called `" + wire.name() + "`")
                  .expected("another name: the wire from this output to the circuits has it")
                  .help("give this one a `name:` of its own"));
        }
      }
      link(wire);
    }
    contacts.links().forEach(c -> usedOutputs.put(c.sourceCell(), true));
    reportUnwired();
  }

  private void link(Field.Wire wire) {
    Integer source = sources.get(wire.from().text().toLowerCase(Locale.ROOT));
    Far far = sinks.get(wire.to().text().toLowerCase(Locale.ROOT));
    if (source == null) {
      unknownEnd(
          wire.from(), "a wire begins", sources.keySet(), sinks.containsKey(key(wire.from())));
    }
    if (far == null) {
      unknownEnd(wire.to(), "a wire ends", sinks.keySet(), sources.containsKey(key(wire.to())));
    }
    if (far != null && far.taken != null) {
      problems.add(
          Diagnostic.error(wire.to().position(), "two wires lead to `" + wire.to().text() + "`")
              .note(far.taken.to().position(), "the first one")
              .help("join the two in a circuit, or take one away"));
    }
    if (source == null || far == null) {
      markTaken(far, wire);
      return;
    }
    markTaken(far, wire);
    Symbol from = layout.symbols().get(source);
    if (!carries(from.type(), far.type)) {
      problems.add(
          Diagnostic.error(
                  wire.position(), "this wire leads from " + from.type() + " to " + far.type)
              .expected("the same kind of value at both ends"));
    }
    usedOutputs.put(source, true);
    WireRun run =
        new WireRun(
            wire.name(), far.type == Type.BOOL, new SeededStream(seed, "wire." + wire.name()));
    links.add(new Link(source, from.type(), supplyOf(wire.from(), far), run, far.sink));
  }

  private static String key(Name name) {
    return key(name.text());
  }

  private static String key(String name) {
    return name.toLowerCase(Locale.ROOT);
  }

  private static void markTaken(Far far, Field.Wire wire) {
    if (far != null && far.taken == null) {
      far.taken = wire;
    }
  }

  private static boolean carries(Type from, Type to) {
    return from == to || from.isNumber() && to.isReal();
  }

  private int supplyOf(Name from, Far far) {
    Point point = far.point;
    for (Point output : project.controller().points()) {
      if (output.kind() == Kind.OUTPUT && output.name().equalsIgnoreCase(from.text())) {
        point = output;
      }
    }
    return point == null ? -1 : Contacts.supplyNumber(project, point.supply());
  }

  private void unknownEnd(Name name, String what, Set<String> known, boolean wrongWayRound) {
    problems.add(
        Diagnostic.error(
                name.position(), "no place where " + what + " is named `" + name.text() + "`")
            .expected(
                what.endsWith("begins")
                    ? "a plant output, push button, circuit, supply or controller output"
                    : "a plant input, lamp or controller input")
            .help(
                wrongWayRound
                    ? "this is the other end of a wire: exchange `from` and `to`"
                    : NearNames.question(name.text(), known)));
  }

  private void reportUnwired() {
    for (Map.Entry<String, Far> entry : sinks.entrySet()) {
      Far far = entry.getValue();
      if (far.taken == null && far.required) {
        problems.add(
            Diagnostic.error(far.declared, far.shown + " `" + entry.getKey() + "` is not wired")
                .help("add {from: ..., to: " + entry.getKey() + "} under wiring"));
      }
    }
    for (Point point : project.controller().points()) {
      boolean used =
          point.kind() != Kind.OUTPUT
              || usedOutputs.containsKey(cell(point.name()));
      if (!used && !project.field().wires().isEmpty()) {
        problems.add(
            Diagnostic.warning(point.position(), "output `" + point.name() + "` leads nowhere")
                .help("wire it, or name it in a circuit"));
      }
    }
  }
}
