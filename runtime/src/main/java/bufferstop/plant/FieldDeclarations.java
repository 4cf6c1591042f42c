package bufferstop.plant;

import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.ModbusMap;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import bufferstop.spi.Problems;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Opens the plants and gives every name of the field its cell. */
final class FieldDeclarations {
  private final Layout layout;
  private final Diagnostics problems;
  private final List<PlantUnit> plants = new ArrayList<>();
  private final List<String> devices = new ArrayList<>();
  private final Map<String, Position> heads = new TreeMap<>(); // of plants, even without ports

  FieldDeclarations(Layout layout, Diagnostics problems) {
    this.layout = layout;
    this.problems = problems;
  }

  /** Names of the devices that no node simulates. */
  List<String> devices() {
    return devices;
  }

  /**
   * Whether each device of the field map is there, and what it brings can be trusted; in a run
   * without devices both are so while the simulated link is up.
   */
  void declareDevices(Project project) {
    for (ModbusMap map : project.maps()) {
      if (map.face().equals("field") && !map.isFaultPanel()) {
        boolean simulated =
            project.field().nodes().stream().anyMatch(n -> n.name().equalsIgnoreCase(map.device()));
        if (!simulated) {
          String name = "nodes." + map.device() + ".ok";
          add(name, Type.BOOL, Kind.INTERNAL, Seen.BY_ALL, "", "device", map.position());
          devices.add(map.device());
        }
        map.entries().forEach(e -> declareGood(e, project.controller().points()));
      }
    }
  }

  private void declareGood(ModbusMap.Entry entry, List<Point> points) {
    boolean input =
        points.stream()
            .anyMatch(
                p -> p.kind() == Kind.INPUT && p.name().equalsIgnoreCase(entry.point().text()));
    String name = entry.point().text() + ".good";
    if (input && layout.field().find(name) == null) { // mapped twice is said elsewhere
      add(name, Type.BOOL, Kind.INTERNAL, Seen.BY_ALL, "", "can be trusted", entry.position());
    }
  }

  List<PlantUnit> plants() {
    return plants;
  }

  void declare(Field field, List<Point> points, PlantCatalog catalog, long seed) {
    declareNodes(field, points);
    for (Field.Supply supply : field.supplies()) {
      signal("supplies." + supply.name(), supply.text(), supply.position());
    }
    for (Field.PanelElement element : field.panel()) {
      element.signals().forEach(s -> signal(s, element.text(), element.position()));
    }
    for (Field.Circuit circuit : field.circuits()) {
      signal("circuits." + circuit.name(), "", circuit.position());
    }
    for (Field.Hazard hazard : field.hazards()) {
      signal("hazards." + hazard.name(), "", hazard.position());
    }
    for (Field.PlantUse use : field.plants()) {
      open(use, catalog, seed);
    }
  }

  /** Whether each node is there, which the controller sees too, and what each gives. */
  private void declareNodes(Field field, List<Point> points) {
    for (Field.Node node : field.nodes()) {
      String name = "nodes." + node.name() + ".ok";
      add(name, Type.BOOL, Kind.INTERNAL, Seen.BY_ALL, "", node.text(), node.position());
    }
    for (Point point : points) {
      if (point.kind() == Kind.OUTPUT && point.node() != null) {
        String name = point.name() + ".remote";
        value(name, point.type(), Kind.INTERNAL, "", "given by the node", point.position());
      }
    }
  }

  private void signal(String name, String text, Position position) {
    value(name, Type.BOOL, Kind.INTERNAL, "", text, position);
  }

  private Symbol value(
      String name, Type type, Kind kind, String unit, String text, Position position) {
    return add(name, type, kind, Seen.BY_FIELD, unit, text, position);
  }

  private Symbol add(
      String name, Type type, Kind kind, Seen seen, String unit, String text, Position position) {
    Symbol symbol = layout.add(name, type, kind, seen, unit, text, position);
    if (symbol == null) {
      problems.add(
          Diagnostic.error(Code.DECLARED_TWICE, position, "`" + name + "` is declared twice")
              .note(layout.field().find(name).declared(), "first here")
              .help("give one of them another name"));
      return layout.field().find(name);
    }
    return symbol;
  }

  private void open(Field.PlantUse use, PlantCatalog catalog, long seed) {
    Position taken = declared(use.name());
    if (taken != null) {
      problems.add(
          Diagnostic.error(
                  Code.DECLARED_TWICE, use.position(), "`" + use.name() + "` is declared twice")
              .note(taken, "first here")
              .help("give one of them another name; case does not tell names apart"));
      problems.doubt(use.name());
      return;
    }
    heads.put(use.name().toLowerCase(Locale.ROOT), use.position());
    Plant plant = opened(use, catalog, seed);
    if (plant == null) {
      problems.doubt(use.name());
    } else {
      host(use, catalog.named(use.model().text()), plant);
    }
  }

  /** Where a name, or one dotted below it, is declared; null when it is free. */
  private Position declared(String head) {
    String lower = head.toLowerCase(Locale.ROOT);
    for (Symbol symbol : layout.symbols()) {
      String name = symbol.name().toLowerCase(Locale.ROOT);
      if (name.equals(lower) || name.startsWith(lower + ".")) {
        return symbol.declared();
      }
    }
    return heads.get(lower);
  }

  private Plant opened(Field.PlantUse use, PlantCatalog catalog, long seed) {
    Name wanted = use.model();
    PlantModel model = catalog.named(wanted.text());
    if (model == null) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_MODEL,
                  wanted.position(),
                  "no plant model named `" + wanted.text() + "`")
              .expected(String.join(", ", catalog.names()))
              .help(NearNames.question(wanted.text(), catalog.names())));
      return null;
    }
    int before = problems.errors();
    try {
      CheckedSettings settings =
          new SettingsReader(problems)
              .read(use.settings(), model.schema(), "plant `" + use.name() + "`");
      // a plug-in is shown only settings that fit its schema
      return problems.errors() > before ? null : opened(use, model, settings, seed);
    } catch (RuntimeException | LinkageError e) {
      fail(use, model, "failed to open: " + e);
      return null;
    }
  }

  private void host(Field.PlantUse use, PlantModel model, Plant plant) {
    List<Port> inputs;
    List<Port> outputs;
    try {
      inputs = List.copyOf(plant.inputs());
      outputs = List.copyOf(plant.outputs());
    } catch (RuntimeException e) {
      fail(use, model, "failed to tell its ports: " + e);
      return;
    }
    plants.add(new PlantUnit(use.name(), plant, cells(use, inputs), cells(use, outputs)));
  }

  private Plant opened(Field.PlantUse use, PlantModel model, CheckedSettings settings, long seed) {
    int[] reported = {0};
    Problems sink =
        new Problems() {
          @Override
          public void error(
              Settings at, String parameter, String message, String expected, String help) {
            reported[0]++;
            problems.add(
                Diagnostic.error(Code.PLANT_SETTINGS, place(at, parameter), message)
                    .expected(expected)
                    .help(help));
          }

          @Override
          public void warning(
              Settings at, String parameter, String message, String expected, String help) {
            problems.add(
                Diagnostic.warning(Code.PLANT_SETTINGS, place(at, parameter), message)
                    .expected(expected)
                    .help(help));
          }
        };
    Plant plant = model.open(settings, sink, new SeededStream(seed, "plant." + use.name()));
    if (plant == null && reported[0] == 0) {
      fail(use, model, "gave no plant");
    }
    return reported[0] > 0 ? null : plant;
  }

  private void fail(Field.PlantUse use, PlantModel model, String what) {
    problems.add(
        Diagnostic.error(
            Code.PLANT_MODEL_BROKEN,
            use.model().position(),
            "plant model `" + model.name() + "` (" + model.getClass().getName() + ") " + what));
  }

  private static Position place(Settings at, String parameter) {
    Tree.Table table = ((CheckedSettings) at).table();
    Tree value = table.get(parameter);
    return value == null ? table.position() : value.position();
  }

  private int[] cells(Field.PlantUse use, List<Port> ports) {
    int[] cells = new int[ports.size()];
    for (int i = 0; i < cells.length; i++) {
      Port port = ports.get(i);
      cells[i] =
          value(
                  use.name() + "." + port.name(),
                  port.bool() ? Type.BOOL : Type.LREAL,
                  Kind.PLANT_PORT,
                  port.unit(),
                  port.text(),
                  use.position())
              .index();
    }
    return cells;
  }
}
