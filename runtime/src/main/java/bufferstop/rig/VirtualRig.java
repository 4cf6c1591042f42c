package bufferstop.rig;

import bufferstop.engine.ScanLoop;
import bufferstop.engine.VirtualClock;
import bufferstop.image.WriteRequest;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.Scope;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.plant.FieldRun;
import bufferstop.plant.PlantCatalog;
import bufferstop.plant.Switch;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.Target;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import bufferstop.trace.TraceDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A rig in virtual time: as fast as the machine allows, the same everywhere. */
public final class VirtualRig implements Target {
  private final Rig rig;
  private final ScanLoop loop;
  private final TraceDigest trace;
  private final List<Happening> happenings = new ArrayList<>();

  /**
   * A rig for one scenario: its seed, its settings laid over the project's.
   *
   * @return null when a problem forbids a run; all problems are reported
   */
  public static VirtualRig build(
      Project project, PlantCatalog catalog, Scenario scenario, Diagnostics problems) {
    scenario.settings().forEach(s -> checkPlant(s.key(), project, problems));
    // what is wrong elsewhere must not hide what is wrong here
    Diagnostics found = new Diagnostics();
    Rig rig = Rig.build(project.withSettings(scenario.settings()), catalog, scenario.seed(), found);
    found.sorted().forEach(problems::add);
    return rig == null ? null : new VirtualRig(rig);
  }

  private static void checkPlant(Name plant, Project project, Diagnostics problems) {
    List<String> plants = project.field().plants().stream().map(Field.PlantUse::name).toList();
    if (plants.stream().noneMatch(p -> p.equalsIgnoreCase(plant.text()))) {
      problems.add(
          Diagnostic.error(plant.position(), "no plant named `" + plant.text() + "`")
              .expected("a plant of the project")
              .help(NearNames.question(plant.text(), plants)));
    }
  }

  /**
   * @param rig fresh from {@link Rig#build}
   */
  public VirtualRig(Rig rig) {
    this.rig = rig;
    loop = new ScanLoop(rig.engine(), new VirtualClock(), rig.project());
    trace = new TraceDigest(rig.layout().symbols(), rig.project().periodMicros());
    rig.field()
        .reportTo(
            (plant, text, value, unit) -> {
              String amount = unit.isEmpty() ? "" : " " + Values.number(value) + " " + unit;
              happenings.add(new Happening(rig.engine().nowMicros(), plant + ": " + text + amount));
            });
  }

  @Override
  public Scope scope() {
    return rig.layout().field();
  }

  @Override
  public Expression condition(String name) {
    return rig.hazards().get(name.toLowerCase(Locale.ROOT));
  }

  @Override
  public void scan() {
    loop.next();
    trace.scan(rig.engine().nowMicros() / periodMicros(), cells());
  }

  @Override
  public long nextMicros() {
    return rig.engine().nowMicros() + periodMicros();
  }

  @Override
  public long periodMicros() {
    return rig.project().periodMicros();
  }

  @Override
  public long[] cells() {
    return rig.engine().cells();
  }

  @Override
  public List<Happening> happenings() {
    return happenings;
  }

  @Override
  public List<BypassCount> bypasses() {
    return rig.bypasses();
  }

  @Override
  public String traceSha256() {
    return trace.sha256();
  }

  /** Pictures of all plants as they stand. */
  public List<FieldRun.Picture> pictures() {
    return rig.field().pictures();
  }

  @Override
  public Prepared prepare(Scenario.Deed deed, Diagnostics problems) {
    if (deed instanceof Scenario.Write write) {
      return prepareWrite(write, problems);
    }
    if (deed instanceof Scenario.Press press) {
      boolean stays = rig.field().desk().isLatching(press.element());
      Switch down = rig.field().desk().press(press.element(), problems);
      Switch up =
          stays || down == null ? null : rig.field().desk().release(press.element(), problems);
      return prepared(down, up, press.forMicros());
    }
    if (deed instanceof Scenario.Turn turn) {
      Switch turned = rig.field().desk().turn(turn.element(), turn.to(), problems);
      return prepared(turned, null, 0);
    }
    if (deed instanceof Scenario.Release release) {
      return prepared(rig.field().desk().release(release.element(), problems), null, 0);
    }
    if (deed instanceof Scenario.Clear clear) {
      return prepared(rig.field().faults().prepareClear(clear.on(), problems), null, 0);
    }
    Scenario.Inject inject = (Scenario.Inject) deed;
    Switch set = rig.field().faults().prepare(inject.fault(), problems);
    boolean ends = set != null && inject.forMicros() > 0;
    Switch end = ends ? rig.field().faults().prepareEnd(inject.fault(), problems) : null;
    return prepared(set, end, inject.forMicros());
  }

  private Prepared prepared(Switch act, Switch undo, long undoAfterMicros) {
    if (act == null) {
      return null;
    }
    Act undone = undo == null ? null : () -> undo.act(cells());
    return new Prepared(() -> act.act(cells()), undone, undoAfterMicros);
  }

  private Prepared prepareWrite(Scenario.Write write, Diagnostics problems) {
    int count = write.values().size();
    Map<Integer, Long> taken = new LinkedHashMap<>(); // by cell
    boolean good = true;
    boolean admitted = true;
    for (int i = 0; i < count; i++) {
      Scenario.Assignment assignment = write.values().get(i);
      Point point = operatorPoint(assignment, problems);
      long[] value = point == null ? null : value(point, assignment, problems);
      good &= value != null;
      if (value != null) {
        int first = scope().find(point.name()).index();
        for (int cell = 0; cell < value.length; cell++) {
          taken.put(first + cell, value[cell]);
        }
        admitted &=
            point.type() == Type.STRING
                || admits(point, value[0], assignment, write.refused(), problems);
      }
    }
    if (!good || admitted == write.refused()) {
      reportAccepted(write, good && admitted, problems);
      return null;
    }
    int[] cells = taken.keySet().stream().mapToInt(Integer::intValue).toArray();
    long[] bits = taken.values().stream().mapToLong(Long::longValue).toArray();
    return admitted
        ? new Prepared(
            () -> rig.writes().offer(new WriteRequest(cells, bits, new long[cells.length])),
            null,
            0)
        : new Prepared(() -> {}, null, 0); // the server refuses it and nothing reaches a scan
  }

  /** All cells of a value, a STRING's up to its length; null after a diagnostic. */
  private long[] value(Point point, Scenario.Assignment assignment, Diagnostics problems) {
    if (point.type() == Type.STRING) {
      String text = ExpressionReader.text(assignment.value(), point.length(), problems);
      return text == null
          ? null
          : Arrays.copyOf(StringCells.pack(text), StringCells.cells(point.length()));
    }
    Definitions definitions = scope().definitions();
    if (definitions.hasNoValues()) {
      Long bits = ExpressionReader.literal(assignment.value(), point.type(), problems);
      return bits == null ? null : new long[] {bits};
    }
    Expression value =
        ExpressionReader.constant(
            assignment.value(), point.type(), point.enumeration(), definitions, problems);
    return value == null ? null : new long[] {value.constant()};
  }

  private static void reportAccepted(Scenario.Write write, boolean accepted, Diagnostics problems) {
    if (write.refused() && accepted) {
      Name first = write.values().get(0).point();
      problems.add(
          Diagnostic.error(first.position(), "this write is in range and would not be refused")
              .help("take `refused` away, or give a value outside the range"));
    }
  }

  private static boolean admits(
      Point point,
      long value,
      Scenario.Assignment assignment,
      boolean refused,
      Diagnostics problems) {
    if (point.admits(value)) {
      return true;
    }
    if (!refused) {
      Type type = point.type();
      problems.add(
          Diagnostic.error(
                  assignment.value().whole(),
                  "`" + point.name() + "` cannot be " + Values.print(type, value))
              .expected(
                  "from "
                      + Values.print(type, point.least())
                      + " to "
                      + Values.print(type, point.greatest())));
    }
    return false;
  }

  private Point operatorPoint(Scenario.Assignment assignment, Diagnostics problems) {
    List<Point> points =
        rig.project().controller().points().stream()
            .filter(p -> p.kind() == Kind.OPERATOR)
            .toList();
    for (Point point : points) {
      if (point.name().equalsIgnoreCase(assignment.point().text())) {
        return point;
      }
    }
    List<String> known = points.stream().map(Point::name).toList();
    problems.add(
        Diagnostic.error(
                assignment.point().position(),
                "no operator point named `" + assignment.point().text() + "`")
            .expected("a name under operator")
            .help(NearNames.question(assignment.point().text(), known)));
    return null;
  }
}
