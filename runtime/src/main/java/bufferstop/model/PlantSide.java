package bufferstop.model;

import bufferstop.model.Symbol.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What of a project is left when its controller is another device: inputs and outputs as terminals,
 * and the field.
 *
 * @param project with no program, and with maps that name what is left
 * @param unwatched hazards that name what only the controller knows
 */
public record PlantSide(Project project, List<String> unwatched) {
  private static final Pattern NAME =
      Pattern.compile("[A-Za-z_][A-Za-z_0-9]*(?:\\.[A-Za-z_0-9]+)*");

  /** The plant side of a project. */
  public static PlantSide of(Project project) {
    Set<String> gone = gone(project.controller());
    Field field = project.field();
    List<Field.Hazard> hazards = new ArrayList<>();
    List<String> unwatched = new ArrayList<>();
    for (Field.Hazard hazard : field.hazards()) {
      if (names(hazard.when().value(), gone)) {
        unwatched.add(hazard.name());
      } else {
        hazards.add(hazard);
      }
    }
    Field left =
        new Field(
            field.supplies(),
            List.of(),
            field.plants(),
            field.panel(),
            field.circuits(),
            field.wires(),
            List.copyOf(hazards));
    List<ModbusMap> maps =
        project.maps().stream()
            .map(
                m ->
                    m.with(
                        m.entries().stream().filter(e -> !names(e.point().text(), gone)).toList()))
            .toList();
    return new PlantSide(project.with(terminals(project.controller()), left, maps), unwatched);
  }

  private static Controller terminals(Controller controller) {
    List<Point> points =
        controller.points().stream()
            .filter(p -> p.kind() == Kind.INPUT || p.kind() == Kind.OUTPUT)
            .map(p -> p.node() == null ? p : p.onOwnRack())
            .toList();
    return new Controller(
        controller.definitions(),
        List.of(),
        points,
        List.of(),
        List.of(),
        List.of(),
        SourceText.of(""),
        List.of(),
        null);
  }

  /** First words of names that go with the controller, in lower case. */
  private static Set<String> gone(Controller controller) {
    Set<String> heads = new TreeSet<>(Set.of("alarms", "nodes", "groups"));
    for (Point point : controller.points()) {
      if (point.kind() == Kind.OPERATOR || point.kind() == Kind.INTERNAL) {
        heads.add(head(point.name()));
      }
    }
    controller.blocks().forEach(b -> heads.add(head(b.name())));
    controller.interlocks().forEach(i -> heads.add(head(i.name())));
    controller.sequences().forEach(s -> heads.add(head(s.name())));
    return heads;
  }

  private static String head(String name) {
    return name.split("[.\\[]")[0].toLowerCase(Locale.ROOT);
  }

  private static boolean names(String text, Set<String> gone) {
    Matcher name = NAME.matcher(text);
    while (name.find()) {
      if (gone.contains(head(name.group())) || name.group().endsWith(".good")) {
        return true;
      }
    }
    return false;
  }
}
