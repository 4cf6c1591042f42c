package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import bufferstop.load.ProjectLoader;
import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.plant.PlantCatalog;
import bufferstop.plant.Switch;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.ScenarioRun;
import bufferstop.spi.PlantModel;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A project on the bench in virtual time, and hands to work on it. */
public final class Workbench {
  private static final Position HERE = Position.ofFile("test");

  private final VirtualRig target;
  private final Rig rig;

  private Workbench(Rig rig) {
    this.rig = rig;
    target = new VirtualRig(rig);
  }

  /** Writes a project into a folder. */
  public static Project project(Path folder, String yaml) {
    Diagnostics problems = new Diagnostics();
    try {
      Path file = Files.writeString(folder.resolve("project.yaml"), yaml);
      Project project = ProjectLoader.read(file, problems);
      assertEquals(List.of(), problems.sorted());
      return project;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Puts a faultless project on the bench. */
  public static Workbench with(Project project, long seed, PlantCatalog catalog) {
    Diagnostics problems = new Diagnostics();
    Rig rig = Rig.build(project, catalog, seed, problems);
    assertNotNull(rig, () -> problems.sorted().toString());
    return new Workbench(rig);
  }

  /** Writes a project and puts it on the bench with seed 1. */
  public static Workbench with(Path folder, String yaml, PlantModel... models) {
    return with(project(folder, yaml), 1, PlantCatalog.of(models));
  }

  public VirtualRig target() {
    return target;
  }

  public Workbench scan(int times) {
    for (int i = 0; i < times; i++) {
      target.scan();
    }
    return this;
  }

  public Symbol symbol(String name) {
    Symbol symbol = target.scope().find(name);
    assertNotNull(symbol, () -> "no point named " + name);
    return symbol;
  }

  public boolean bool(String name) {
    return target.cells()[symbol(name).index()] != 0;
  }

  public double real(String name) {
    return Double.longBitsToDouble(target.cells()[symbol(name).index()]);
  }

  /** One character a scan: the value of a BOOL after each of the next scans. */
  public String record(String name, int scans) {
    StringBuilder seen = new StringBuilder();
    for (int i = 0; i < scans; i++) {
      target.scan();
      seen.append(bool(name) ? '1' : '0');
    }
    return seen.toString();
  }

  /**
   * Sets a fault before the next scan.
   *
   * @param value as in a scenario file, or null
   */
  public Workbench fault(Fault.Place place, String name, String mode, String value, long micros) {
    Diagnostics problems = new Diagnostics();
    act(
        rig.field().faults().prepare(faultOf(place, name, mode, value, micros), problems),
        problems);
    return this;
  }

  public Workbench wireFault(String wire, String mode) {
    return fault(Fault.Place.WIRE, wire, mode, null, 0);
  }

  public Workbench nodeLost(String node) {
    return fault(Fault.Place.NODE, node, "lost", null, 0);
  }

  public Workbench supplyLost(String supply) {
    return fault(Fault.Place.SUPPLY, supply, "lost", null, 0);
  }

  /** What is said about a fault that cannot be set. */
  public List<String> refusal(
      Fault.Place place, String name, String mode, String value, long micros) {
    Diagnostics problems = new Diagnostics();
    Fault fault = faultOf(place, name, mode, value, micros);
    Switch prepared = rig.field().faults().prepare(fault, problems);
    assertEquals(null, prepared);
    return problems.sorted().stream().map(d -> d.message()).toList();
  }

  private static Fault faultOf(
      Fault.Place place, String name, String mode, String value, long micros) {
    return new Fault(
        new Fault.Target(place, new Name(name, HERE)),
        new Name(mode, HERE),
        value == null ? null : SourceText.of(value),
        micros);
  }

  public Workbench clear(Fault.Place place, String name) {
    Diagnostics problems = new Diagnostics();
    Fault.Target on = new Fault.Target(place, new Name(name, HERE));
    act(rig.field().faults().prepareClear(on, problems), problems);
    return this;
  }

  public Workbench press(String element) {
    Diagnostics problems = new Diagnostics();
    act(rig.field().desk().press(new Name(element, HERE), problems), problems);
    return this;
  }

  public Workbench release(String element) {
    Diagnostics problems = new Diagnostics();
    act(rig.field().desk().release(new Name(element, HERE), problems), problems);
    return this;
  }

  public Workbench turn(String selector, String position) {
    Diagnostics problems = new Diagnostics();
    act(
        rig.field().desk().turn(new Name(selector, HERE), new Name(position, HERE), problems),
        problems);
    return this;
  }

  private void act(Switch prepared, Diagnostics problems) {
    assertEquals(List.of(), problems.sorted());
    prepared.act(target.cells());
  }

  /** Reads a scenario written for this bench. */
  public static Scenario scenario(Path folder, String yaml) {
    Diagnostics problems = new Diagnostics();
    try {
      Path file = Files.writeString(folder.resolve("scenario.yaml"), yaml);
      List<Scenario> scenarios = ScenarioLoader.read(file, null, problems);
      assertEquals(List.of(), problems.sorted());
      assertEquals(1, scenarios.size());
      return scenarios.get(0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Runs a scenario that links without a problem. */
  public ScenarioResult run(Scenario scenario) {
    Diagnostics problems = new Diagnostics();
    ScenarioRun run = ScenarioRun.link(scenario, target, problems);
    assertEquals(List.of(), problems.sorted());
    return run.run();
  }
}
