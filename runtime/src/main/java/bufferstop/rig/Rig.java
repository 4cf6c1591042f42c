package bufferstop.rig;

import bufferstop.engine.Engine;
import bufferstop.engine.OperatorPoints;
import bufferstop.engine.ScanPoints;
import bufferstop.image.Layout;
import bufferstop.image.OperatorWrites;
import bufferstop.image.SnapshotRing;
import bufferstop.modbus.FieldMapCheck;
import bufferstop.modbus.MapLinker;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.Project;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.SystemCells;
import bufferstop.plant.FieldLinker;
import bufferstop.plant.FieldRun;
import bufferstop.plant.PlantCatalog;
import bufferstop.program.ControllerProgram;
import bufferstop.program.ProgramLinker;
import bufferstop.retention.RetainedCells;
import bufferstop.scenario.BypassCount;
import bufferstop.st.Expression;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * A project put together for one run.
 *
 * @param layout every name and its cell
 * @param maps Modbus maps with their types
 * @param field supplies, wires, circuits, plants
 * @param writable what an HMI may write
 * @param panel faults and forces as points; null where the project wants none
 * @param retained what outlives a run
 * @param places expressions that may fail in a run, by their numbers from 1
 * @param hazards conditions by lower-case name, {@code hazards.x}
 */
public record Rig(
    Project project,
    Layout layout,
    List<ModbusMap> maps,
    FieldRun field,
    Engine engine,
    OperatorWrites writes,
    SnapshotRing snapshots,
    Map<String, Expression> hazards,
    List<Point> writable,
    LivePanel panel,
    RetainedCells retained,
    List<SourceText> places) {

  /**
   * Resolves a project.
   *
   * @param seed of every random stream of the run
   * @return null when a problem forbids a run; all problems are reported
   */
  public static Rig build(Project given, PlantCatalog catalog, long seed, Diagnostics problems) {
    Project project = given.withForcesAlarm();
    Layout layout = new Layout();
    ScanPoints scanPoints = ScanPoints.declare(layout);
    ProgramLinker programLinker = ProgramLinker.declare(project.controller(), layout, problems);
    FieldLinker fieldLinker = FieldLinker.declare(project, catalog, seed, layout, problems);
    ControllerProgram program = programLinker.link();
    FieldRun field = fieldLinker.link();
    boolean wanted = project.maps().stream().anyMatch(ModbusMap::isFaultPanel);
    LivePanel.Points panel =
        wanted && field != null ? new LivePanel.Points(layout, field.faults()) : null;
    List<ModbusMap> maps =
        project.maps().stream()
            .map(m -> m.isFaultPanel() && panel != null ? m.with(panel.entries()) : m)
            .map(m -> MapLinker.link(m, layout.field(), problems))
            .toList();
    FieldMapCheck check = new FieldMapCheck(project.controller().points(), problems);
    maps.forEach(check::check);
    checkStatus(project, layout, problems);
    if (project.billing() != null) {
      BillingMeters.of(project.billing(), layout.field(), problems);
    }
    if (problems.hasErrors()) {
      return null;
    }
    int cells = layout.symbols().size();
    OperatorWrites writes = new OperatorWrites(cells);
    SnapshotRing snapshots = new SnapshotRing(cells);
    Engine engine =
        new Engine(
            new long[cells],
            project.periodMicros(),
            project.periodMicros() / project.plantStepMicros(),
            program,
            field,
            new OperatorPoints(project.controller(), layout, cells),
            writes,
            snapshots,
            scanPoints);
    engine.start();
    List<Point> writable =
        new ArrayList<>(
            project.controller().points().stream().filter(p -> p.kind() == Kind.OPERATOR).toList());
    if (panel != null) {
      writable.addAll(panel.writable());
    }
    return new Rig(
        project,
        layout,
        maps,
        field,
        engine,
        writes,
        snapshots,
        fieldLinker.hazards(),
        List.copyOf(writable),
        panel == null ? null : panel.start(engine.cells(), engine.forces()),
        new RetainedCells(program.retained()),
        problems.places());
  }

  private static void checkStatus(Project project, Layout layout, Diagnostics problems) {
    for (Name name : project.status()) {
      if (layout.field().find(name.text()) == null && !problems.doubts(name.text())) {
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_NAME, name.position(), "no point named `" + name.text() + "`")
                .expected("a point, step, block output, alarm or plant port")
                .help(NearNames.question(name.text(), layout.field().names())));
      }
    }
  }

  /** What failed first among expressions, and where; empty while nothing has. */
  public String firstError() {
    long[] cells = engine.cells();
    if (cells[SystemCells.ERRORS] == 0) {
      return "";
    }
    int place = (int) cells[SystemCells.FIRST_ERROR];
    if (place < 1 || place > places.size()) {
      return "an expression failed";
    }
    SourceText text = places.get(place - 1);
    String line = text.value().strip().replaceAll("\\s+", " ");
    return "`%s` could not be worked out, %s".formatted(line, text.whole());
  }

  /** What came of bypasses so far, one for each cause that can be bypassed, in file order. */
  public List<BypassCount> bypasses() {
    List<BypassCount> all = new ArrayList<>();
    for (Controller.Interlock interlock : project.controller().interlocks()) {
      for (Controller.Cause cause : interlock.causes()) {
        if (cause.bypass() != null) {
          String name = interlock.name() + "." + cause.name();
          long times = value(name + ".bypasses");
          all.add(
              new BypassCount(interlock.name(), cause.name(), times, value(name + ".would_acts")));
        }
      }
    }
    return List.copyOf(all);
  }

  private long value(String name) {
    return engine.cells()[layout.field().find(name).index()];
  }

  /** The map of that name, or null. */
  public ModbusMap map(String name) {
    return maps.stream().filter(m -> m.name().equals(name)).findFirst().orElse(null);
  }
}
