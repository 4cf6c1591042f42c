package bufferstop.plant;

import bufferstop.image.Layout;
import bufferstop.model.Code;
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
  private int endsMissing;

  /** The far end of a wire: what kind of value it takes and where it lands. */
  private static final class Far {
    final String shown;
    final String name;
    final Type type;
    final Point point; // null unless a controller input
    final Link.Sink sink;
    final boolean required;
    final Position declared;
    Field.Wire taken;
    boolean meant; // a wire that ends at no known place is probably meant for it

    Far(
        String shown,
        String name,
        Type type,
        Point point,
        Link.Sink sink,
        boolean required,
        Position declared) {
      this.shown = shown;
      this.name = name;
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
                point.name(),
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
                  Code.NOT_WIRED,
                  point.position(),
                  "no wire carries " + point.type() + " to `" + point.name() + "`")
              .expected("BOOL, REAL or LREAL"));
    }
    if (point.filterMicros() > 0 && point.type() != Type.BOOL) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  point.position(),
                  "`" + point.name() + "` is no BOOL and has a filter")
              .expected("`filter` on BOOL inputs only"));
    }
  }

  private void checkNode(Point point) {
    List<String> known = project.field().nodes().stream().map(Field.Node::name).toList();
    if (point.node() != null
        && known.stream().noneMatch(n -> n.equalsIgnoreCase(point.node().text()))
        && !problems.doubts("nodes." + point.node().text())) {
      problems.doubt("nodes." + point.node().text()); // said once
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME,
                  point.node().position(),
                  "no node named `" + point.node().text() + "`")
              .expected("a name under nodes")
              .help(NearNames.question(point.node().text(), known)));
    }
  }

  private void reportUnknownSupply(Name supply) {
    if (problems.doubts("supplies." + supply.text())) {
      return;
    }
    List<String> known = project.field().supplies().stream().map(Field.Supply::name).toList();
    problems.add(
        Diagnostic.error(
                Code.UNKNOWN_NAME, supply.position(), "no supply named `" + supply.text() + "`")
            .expected("a name under supplies")
            .help(NearNames.question(supply.text(), known)));
    problems.doubt("supplies." + supply.text()); // said once
  }

  private void collectPanel() {
    for (Field.Supply supply : project.field().supplies()) {
      source("supplies." + supply.name());
    }
    for (Field.Circuit circuit : project.field().circuits()) {
      source("circuits." + circuit.name());
    }
    for (Field.PanelElement element : project.field().panel()) {
      boolean contact =
          element.kind() == Field.ElementKind.PUSH_BUTTON
              || element.kind() == Field.ElementKind.SELECTOR;
      if (contact) {
        element.signals().forEach(this::source);
      } else {
        String name = element.signals().get(0);
        int cell = layout.field().find(name).index();
        sink(
            name,
            new Far(
                element.kind() == Field.ElementKind.LAMP ? "lamp" : "horn",
                name,
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
              name,
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
      for (Link contact : contacts.allRead() ? contacts.links() : List.<Link>of()) {
        if (contact.wire().name().equalsIgnoreCase(wire.name())) {
          problems.add(
              Diagnostic.error(
                      Code.WIRED_TWICE,
                      wire.name().equalsIgnoreCase(wire.from().text())
                          ? wire.from().position()
                          : wire.position(),
                      "two wires are called `" + wire.name() + "`")
                  .expected("another name: the wire from this output to the circuits has it")
                  .help("give this one a `name:` of its own"));
        }
      }
      link(wire);
    }
    contacts.links().forEach(c -> usedOutputs.put(c.sourceCell(), true));
    reportUnwired();
    if (contacts.allRead() && !project.field().wires().isEmpty() && !problems.doubts("wiring")) {
      warnOfUnused();
    }
  }

  private void link(Field.Wire wire) {
    Integer source = sources.get(key(wire.from()));
    Far far = sinks.get(key(wire.to()));
    if (source == null && far == null && isTurned(wire)) {
      return;
    }
    if (source == null) {
      unknownStart(wire.from());
    }
    if (far == null) {
      unknownEnd(wire.to());
    }
    if (far != null && far.taken != null) {
      problems.add(
          Diagnostic.error(
                  Code.WIRED_TWICE,
                  wire.to().position(),
                  "two wires lead to `" + wire.to().text() + "`")
              .note(far.taken.to().position(), "the first one")
              .help("join the two in a circuit, or take one away"));
    }
    if (far != null && far.taken == null) {
      far.taken = wire;
    }
    if (source != null) {
      usedOutputs.put(source, true);
    }
    if (source != null && far != null) {
      join(wire, source, far);
    }
  }

  /** Reports a wire that would be right the other way round, and takes it so. */
  private boolean isTurned(Field.Wire wire) {
    Integer source = sources.get(key(wire.to()));
    Far far = sinks.get(key(wire.from()));
    if (source == null || far == null) {
      return false;
    }
    problems.add(
        Diagnostic.error(Code.BAD_WIRE, wire.from().position(), "this wire is the wrong way round")
            .expected("`from` where a value comes from, `to` where it goes")
            .help("exchange `from` and `to`"));
    usedOutputs.put(source, true);
    far.meant = true;
    return true;
  }

  private void join(Field.Wire wire, int source, Far far) {
    Symbol from = layout.symbols().get(source);
    if (!carries(from.type(), far.type)) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_WIRE,
                  wire.to().position(),
                  "this wire leads from "
                      + from.type()
                      + " to "
                      + far.type
                      + ", `"
                      + wire.to().text()
                      + "`")
              .expected("the same kind of value at both ends")
              .note(wire.from().position(), "`" + from.name() + "` is " + from.type()));
    }
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

  private void unknownStart(Name name) {
    if (!isExplained(name)) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME,
                  name.position(),
                  "no place where a wire begins is named `" + name.text() + "`")
              .expected(
                  "a plant output, push button, selector position, circuit, supply or controller"
                      + " output")
              .help(help(name, sources.keySet(), sinks.containsKey(key(name)))));
      doubtHead(name, sources.keySet());
      for (String near : NearNames.of(name.text(), sources.keySet())) {
        usedOutputs.put(sources.get(near), true);
      }
    }
  }

  private void unknownEnd(Name name) {
    if (name.text().isEmpty()) {
      endsMissing++;
    } else if (!isExplained(name)) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME,
                  name.position(),
                  "no place where a wire ends is named `" + name.text() + "`")
              .expected("a plant input, lamp, horn or controller input")
              .help(help(name, sinks.keySet(), sources.containsKey(key(name)))));
      doubtHead(name, sinks.keySet());
      NearNames.of(name.text(), sinks.keySet()).forEach(near -> sinks.get(near).meant = true);
    }
  }

  /** A plant that is not there is said once, not for each of its ports. */
  private void doubtHead(Name name, Set<String> known) {
    int dot = name.text().indexOf('.');
    String head = key(name).substring(0, dot + 1);
    if (dot > 0 && known.stream().noneMatch(k -> k.startsWith(head))) {
      problems.doubt(name.text().substring(0, dot));
    }
  }

  /** An end that is missing, or whose declaration is wrong, was reported before. */
  private boolean isExplained(Name end) {
    return end.text().isEmpty() || problems.doubts(end.text());
  }

  private static String help(Name name, Set<String> known, boolean wrongWayRound) {
    if (wrongWayRound) {
      return "this is the other end of a wire: exchange `from` and `to`";
    }
    List<String> below = known.stream().filter(k -> k.startsWith(key(name) + ".")).toList();
    return below.isEmpty()
        ? NearNames.question(name.text(), known)
        : "name one of " + String.join(", ", below);
  }

  private void reportUnwired() {
    if (problems.doubts("wiring")) {
      return;
    }
    List<Far> open =
        sinks.values().stream().filter(f -> f.taken == null && !f.meant && f.required).toList();
    if (open.size() > endsMissing) { // otherwise the wires whose end is missing account for all
      open.forEach(this::reportUnwired);
    }
  }

  private void warnOfUnused() {
    for (Point point : project.controller().points()) {
      boolean used = point.kind() != Kind.OUTPUT || usedOutputs.containsKey(cell(point.name()));
      if (!used && !problems.doubts("circuits")) {
        problems.add(
            Diagnostic.warning(
                    Code.NOT_WIRED, point.position(), "output `" + point.name() + "` leads nowhere")
                .help("wire it, or name it in a circuit"));
      }
    }
  }

  private void reportUnwired(Far far) {
    problems.add(
        Diagnostic.error(
                Code.NOT_WIRED, far.declared, far.shown + " `" + far.name + "` is not wired")
            .help("add {from: ..., to: " + far.name + "} under wiring"));
  }
}
