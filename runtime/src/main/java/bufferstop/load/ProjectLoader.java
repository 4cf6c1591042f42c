package bufferstop.load;

import bufferstop.model.Billing;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.ModbusMap;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Tree;
import bufferstop.model.Values;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/** Reads a project: the door of this room. */
public final class ProjectLoader {
  private static final long DEFAULT_PERIOD = 10_000;
  private static final long DEFAULT_PLANT_STEP = 1_000;
  private static final long DEFAULT_WATCHDOG = 500_000;
  private static final long DEFAULT_CATCH_UP = 1_000_000;
  private static final long LEAST_STEP = 100;

  private final Diagnostics problems;
  private final ProjectFiles files;
  private final Sections sections;

  private ProjectLoader(Diagnostics problems) {
    this.problems = problems;
    this.files = new ProjectFiles(problems);
    this.sections = new Sections(files, problems);
  }

  /**
   * Reads a project as far as it can be read, so that later checks can go on in the same pass.
   *
   * @param place a folder with {@code project.yaml}, or the file itself
   * @return null, after a diagnostic, when there is nothing to go on with
   */
  public static Project read(Path place, Diagnostics problems) {
    Path file = Files.isDirectory(place) ? place.resolve("project.yaml") : place;
    return new ProjectLoader(problems).project(file.normalize());
  }

  private Project project(Path file) {
    Tree root = files.read(file, Position.ofFile(file.toString()));
    TableReader reader = root == null ? null : TableReader.open(root, Grammar.PROJECT, problems);
    if (reader == null) {
      return null;
    }
    SourceText name = reader.requiredText("project");
    long period = reader.time("scan", DEFAULT_PERIOD, LEAST_STEP);
    long step = reader.time("plant_step", Math.min(DEFAULT_PLANT_STEP, period), LEAST_STEP);
    step = checkDivides(reader, period, step);
    RoutineLoader routines = new RoutineLoader(files, sections, problems);
    TableReader declared = sections.table(reader, "controller", ControllerForms.CONTROLLER);
    define(routines.open(reader), declared);
    Controller controller =
        new ControllerLoader(sections, problems).read(declared, routines.read(reader));
    Field field = new FieldLoader(files, problems).read(reader, fieldPoints(controller));
    TableReader modbus = sections.table(reader, "modbus", ModbusForms.MODBUS);
    List<ModbusMap> maps =
        new ModbusLoader(
                sections, controller.points(), name == null ? "unnamed" : name.value(), problems)
            .read(modbus);
    Billing billing = new BillingLoader(files, sections, problems).read(reader);
    Path folder = file.getParent() == null ? Path.of(".") : file.getParent();
    Project project =
        new Project(
            name == null ? "unnamed" : name.value(),
            folder,
            scenarios(reader, folder),
            period,
            step,
            reader.time("watchdog", DEFAULT_WATCHDOG, LEAST_STEP),
            reader.time("catch_up", DEFAULT_CATCH_UP, LEAST_STEP),
            controller,
            field,
            maps,
            reader.names("status"),
            billing,
            files.sources(),
            files.sha256());
    reader.finish();
    return project;
  }

  /** Types and constants come first: all the rest may use them. */
  private void define(List<TableReader> libraries, TableReader controller) {
    DefinitionsLoader definitions = new DefinitionsLoader(sections, problems);
    libraries.forEach(definitions::read);
    if (controller != null) {
      definitions.read(controller);
    }
    sections.define(definitions.known());
  }

  private Path scenarios(TableReader reader, Path folder) {
    Name given = reader.name("scenarios");
    Path other = given == null ? null : ProjectFiles.beside(given);
    if (given != null && (other == null || !Files.isDirectory(other))) {
      problems.add(
          Diagnostic.error(
                  Code.NO_SUCH_FILE, given.position(), "there is no folder `" + given.text() + "`")
              .expected("a folder with scenario files"));
    }
    return other == null ? folder.resolve("scenarios") : other;
  }

  private long checkDivides(TableReader reader, long period, long step) {
    if (period % step == 0) {
      return step;
    }
    Tree own = reader.tree("plant_step");
    Tree at = own == null ? reader.tree("scan") : own;
    problems.add(
        Diagnostic.error(
                Code.BAD_TIMES,
                at.position(),
                "`plant_step`, "
                    + Values.time(step)
                    + (own == null ? " by default" : "")
                    + ", does not divide `scan`, "
                    + Values.time(period))
            .expected("a whole number of plant steps in a scan"));
    return period;
  }

  /** Inputs and outputs by lower-case name: what a wire is called after. */
  private static Set<String> fieldPoints(Controller controller) {
    return controller.points().stream()
        .filter(p -> p.kind() == Kind.INPUT || p.kind() == Kind.OUTPUT)
        .map(p -> p.name().toLowerCase(Locale.ROOT))
        .collect(Collectors.toSet());
  }
}
