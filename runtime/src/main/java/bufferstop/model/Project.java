package bufferstop.model;

import java.nio.file.Path;
import java.util.List;

/**
 * A project as its files declare it.
 *
 * @param name for people
 * @param folder that holds project.yaml
 * @param scenarios folder with scenario files; it may not exist
 * @param periodMicros scan period
 * @param plantStepMicros step of plants and wires; divides the period
 * @param watchdogMicros longest execution of a scan in real time
 * @param catchUpMicros longest time that plants may catch up in real time
 * @param status names of the values that `run` shows
 * @param billing who pays for what is metered; null for nobody
 * @param sources every file read, in order of reading
 * @param sha256 over the bytes of every file read, in order of reading, lower-case hex
 */
public record Project(
    String name,
    Path folder,
    Path scenarios,
    long periodMicros,
    long plantStepMicros,
    long watchdogMicros,
    long catchUpMicros,
    Controller controller,
    Field field,
    List<ModbusMap> maps,
    List<Name> status,
    Billing billing,
    List<Source> sources,
    String sha256) {

  /** Name of the alarm that stands while anything is forced. */
  public static final String FORCES_ALARM = "forces_active";

  /**
   * A file the project was read from.
   *
   * @param file as the user named it, or as a file of the project names it
   * @param text what it holds
   */
  public record Source(String file, String text) {}

  /**
   * The same project with some settings of its plants replaced.
   *
   * @param settings under plant names, laid over what the project gives, mapping by mapping
   */
  public Project withSettings(List<Tree.Entry> settings) {
    List<Field.PlantUse> plants =
        field.plants().stream().map(plant -> overlaid(plant, settings)).toList();
    return with(
        new Field(
            field.supplies(),
            field.nodes(),
            plants,
            field.panel(),
            field.circuits(),
            field.wires(),
            field.hazards()));
  }

  private static Field.PlantUse overlaid(Field.PlantUse plant, List<Tree.Entry> settings) {
    Tree tree = plant.settings();
    for (Tree.Entry entry : settings) {
      if (entry.key().text().equalsIgnoreCase(plant.name())) {
        tree = Tree.overlay(tree, entry.value());
      }
    }
    return new Field.PlantUse(plant.name(), plant.model(), tree, plant.position());
  }

  /** The same controller with nothing outside it: no plants, wires, circuits, panel, hazards. */
  public Project withoutField() {
    Field nothing =
        new Field(
            field.supplies(), field.nodes(), List.of(), List.of(), List.of(), List.of(), List.of());
    return with(nothing);
  }

  /** The same with one more alarm, which stands while anything is forced. */
  public Project withForcesAlarm() {
    Controller.Alarm alarm =
        new Controller.Alarm(
            FORCES_ALARM,
            SourceText.of("scan.forces > 0"),
            null,
            Controller.Priority.HIGH,
            0,
            0,
            controller.acknowledge() != null,
            false,
            0,
            0,
            null,
            null,
            false,
            "An input or output is forced",
            Position.ofFile(""));
    return with(controller.withAlarm(alarm), field);
  }

  private Project with(Field other) {
    return with(controller, other);
  }

  private Project with(Controller controller, Field other) {
    return with(controller, other, maps);
  }

  /** The same with another controller, field and maps. */
  Project with(Controller controller, Field other, List<ModbusMap> shown) {
    return new Project(
        name,
        folder,
        scenarios,
        periodMicros,
        plantStepMicros,
        watchdogMicros,
        catchUpMicros,
        controller,
        other,
        shown,
        status,
        billing,
        sources,
        sha256);
  }

  /** The map of that name, or null. */
  public ModbusMap map(String name) {
    for (ModbusMap map : maps) {
      if (map.name().equals(name)) {
        return map;
      }
    }
    return null;
  }
}
