package bufferstop.plant;

import bufferstop.image.Layout;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Point;
import bufferstop.model.Project;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Makes a declared field ready to step, in two passes: the door of this room. */
public final class FieldLinker {
  private final Project project;
  private final Field field;
  private final Layout layout;
  private final long seed;
  private final Diagnostics problems;
  private final FieldDeclarations declarations;
  private final Map<String, Expression> hazards = new TreeMap<>();

  private FieldLinker(Project project, long seed, Layout layout, Diagnostics problems) {
    this.project = project;
    this.field = project.field();
    this.seed = seed;
    this.layout = layout;
    this.problems = problems;
    this.declarations = new FieldDeclarations(layout, problems);
  }

  /** First pass: opens the plants and gives every name of the field its cell. */
  public static FieldLinker declare(
      Project project, PlantCatalog catalog, long seed, Layout layout, Diagnostics problems) {
    FieldLinker linker = new FieldLinker(project, seed, layout, problems);
    linker.declarations.declareDevices(project);
    linker.declarations.declare(linker.field, project.controller().points(), catalog, seed);
    return linker;
  }

  /**
   * Second pass: resolves wires, circuits and hazards.
   *
   * @return null when a problem forbids a run; all problems are reported
   */
  public FieldRun link() {
    Contacts contacts = new Contacts(project, layout, seed);
    Expression[] circuits = circuits(contacts);
    Wiring wiring = new Wiring(project, layout, seed, declarations.plants(), problems);
    wiring.link(contacts);
    new PulseBudget(project, declarations.plants(), problems).check();
    HazardWatch watch = hazardWatch();
    if (problems.hasErrors()) {
      return null;
    }
    List<WireRun> runs = new ArrayList<>(wiring.runs());
    contacts.links().forEach(l -> runs.add(l.wire()));
    List<NodeRun> nodes = nodes(wiring);
    InputPoint[] inputs = wiring.inputs().toArray(InputPoint[]::new);
    return new FieldRun(
        new FieldRun.Parts(
            project.plantStepMicros(),
            cells("supplies.", field.supplies().stream().map(Field.Supply::name).toList()),
            contacts.links().toArray(Link[]::new),
            circuits,
            cells("circuits.", field.circuits().stream().map(Field.Circuit::name).toList()),
            wiring.links().toArray(Link[]::new),
            inputs,
            goodCells(inputs),
            cells("nodes.", declarations.devices().stream().map(n -> n + ".ok").toList()),
            new Desk(field.panel(), name -> layout.field().find(name).index()),
            nodes.toArray(NodeRun[]::new),
            declarations.plants().toArray(PlantUnit[]::new),
            watch,
            new FaultPanel(
                project.plantStepMicros(),
                runs,
                field.supplies().stream().map(Field.Supply::name).toList(),
                nodes,
                declarations.plants())));
  }

  private int[] goodCells(InputPoint[] inputs) {
    int[] cells = new int[inputs.length];
    for (int i = 0; i < cells.length; i++) {
      Symbol good = layout.field().find(layout.symbol(inputs[i].cell()).name() + ".good");
      cells[i] = good == null ? -1 : good.index();
    }
    return cells;
  }

  private List<NodeRun> nodes(Wiring wiring) {
    List<NodeRun> all = new ArrayList<>();
    for (Field.Node node : field.nodes()) {
      List<Point> points =
          project.controller().points().stream()
              .filter(p -> p.node() != null && p.node().text().equalsIgnoreCase(node.name()))
              .toList();
      List<Point> outputs = points.stream().filter(p -> p.kind() == Kind.OUTPUT).toList();
      all.add(
          new NodeRun(
              node,
              points.stream()
                  .filter(p -> p.kind() == Kind.INPUT)
                  .map(wiring::input)
                  .toArray(InputPoint[]::new),
              cells("", outputs.stream().map(Point::name).toList()),
              cells("", outputs.stream().map(p -> p.name() + ".remote").toList()),
              outputs.stream().mapToLong(Point::safe).toArray(),
              layout.field().find("nodes." + node.name() + ".ok").index()));
    }
    return all;
  }

  /** The hazards' own conditions by lower-case name ({@code hazards.x}), for margins. */
  public Map<String, Expression> hazards() {
    return hazards;
  }

  private int[] cells(String head, List<String> names) {
    return names.stream().mapToInt(n -> layout.field().find(head + n).index()).toArray();
  }

  private Expression[] circuits(Contacts contacts) {
    List<Expression> all = new ArrayList<>();
    for (Field.Circuit circuit : field.circuits()) {
      Expression closed = ExpressionReader.read(circuit.closed(), contacts, Type.BOOL, problems);
      if (closed == null) {
        contacts.miss();
      }
      all.add(closed);
    }
    return all.toArray(Expression[]::new);
  }

  private HazardWatch hazardWatch() {
    List<Expression> all = new ArrayList<>();
    Map<Integer, Symbol> ports = new TreeMap<>();
    for (Field.Hazard hazard : field.hazards()) {
      SourceText when = hazard.when();
      Expression expression = ExpressionReader.read(when, layout.field(), Type.BOOL, problems);
      if (expression != null) {
        all.add(expression);
        hazards.put("hazards." + hazard.name().toLowerCase(Locale.ROOT), expression);
        expression.reads().stream()
            .filter(s -> s.kind() == Kind.PLANT_PORT && s.type() == Type.LREAL)
            .forEach(s -> ports.put(s.index(), s));
      }
    }
    return new HazardWatch(
        all.toArray(Expression[]::new),
        cells("hazards.", field.hazards().stream().map(Field.Hazard::name).toList()),
        ports.values().toArray(Symbol[]::new));
  }
}
