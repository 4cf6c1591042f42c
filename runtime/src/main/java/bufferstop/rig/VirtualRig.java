package bufferstop.rig;

import bufferstop.engine.ScanLoop;
import bufferstop.engine.VirtualClock;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.Scope;
import bufferstop.plant.FieldRun;
import bufferstop.plant.PlantCatalog;
import bufferstop.scenario.AlarmSummary;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.Target;
import bufferstop.st.Expression;
import java.io.OutputStream;
import java.util.List;
import java.util.Locale;

/** A rig in virtual time: as fast as the machine allows, the same everywhere. */
public final class VirtualRig implements Target, AutoCloseable {
  private final Rig rig;
  private final VirtualClock clock = new VirtualClock();
  private final ScanLoop loop;
  private final RunTrace trace;
  private Runnable afterScan = () -> {};

  /**
   * A rig for one scenario: its seed, its settings laid over the project's.
   *
   * @return null when a problem forbids a run; all problems are reported
   */
  public static VirtualRig build(
      Project project, PlantCatalog catalog, Scenario scenario, Diagnostics problems) {
    return build(project, catalog, scenario, null, problems);
  }

  /**
   * The same whose trace goes to a file.
   *
   * @param file as for the constructor
   */
  public static VirtualRig build(
      Project project,
      PlantCatalog catalog,
      Scenario scenario,
      OutputStream file,
      Diagnostics problems) {
    scenario.settings().forEach(s -> checkPlant(s.key(), project, problems));
    // what is wrong elsewhere must not hide what is wrong here
    Diagnostics found = new Diagnostics();
    Rig rig = Rig.build(project.withSettings(scenario.settings()), catalog, scenario.seed(), found);
    found.sorted().forEach(problems::add);
    return rig == null ? null : new VirtualRig(rig, file);
  }

  private static void checkPlant(Name plant, Project project, Diagnostics problems) {
    List<String> plants = project.field().plants().stream().map(Field.PlantUse::name).toList();
    if (plants.stream().noneMatch(p -> p.equalsIgnoreCase(plant.text()))) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME, plant.position(), "no plant named `" + plant.text() + "`")
              .expected("a plant of the project")
              .help(NearNames.question(plant.text(), plants)));
    }
  }

  /** One whose trace is digested alone. */
  public VirtualRig(Rig rig) {
    this(rig, null);
  }

  /**
   * @param rig fresh from {@link Rig#build}
   * @param file takes the trace; buffered; closed by {@link #close}; null to digest it alone
   */
  public VirtualRig(Rig rig, OutputStream file) {
    this.rig = rig;
    loop = new ScanLoop(rig.engine(), clock, rig.project());
    trace = new RunTrace(rig, file);
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
    trace.afterScan();
    afterScan.run();
  }

  /** Tells someone after each scan, when plants stand where the next one begins. */
  void tellScans(Runnable other) {
    afterScan = other;
  }

  @Override
  public long nextMicros() {
    return rig.engine().nowMicros() + periodMicros();
  }

  @Override
  public long nowMicros() {
    return rig.engine().nowMicros();
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
  public List<Happening> lastHappenings() {
    return trace.lastHappenings();
  }

  @Override
  public List<BypassCount> bypasses() {
    return trace.bypasses();
  }

  @Override
  public AlarmSummary alarms() {
    return trace.alarms();
  }

  @Override
  public String traceSha256() {
    return trace.sha256();
  }

  /** CRC-32C of the trace so far. */
  long traceCrc() {
    return trace.crc();
  }

  /** Ends the trace's file. */
  @Override
  public void close() {
    trace.close();
  }

  /** Pictures of all plants as they stand. */
  public List<FieldRun.Picture> pictures() {
    return rig.field().pictures();
  }

  @Override
  public Prepared prepare(Scenario.Deed deed, Diagnostics problems) {
    Prepared prepared = new DeedLinker(rig, clock::skip).prepare(deed, problems);
    return prepared == null ? null : trace.told(deed, prepared);
  }
}
