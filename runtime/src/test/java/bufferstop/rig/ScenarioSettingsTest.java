package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.plant.ScriptedModel;
import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Settings of plants that hold in one scenario only. */
class ScenarioSettingsTest {
  private static final String PROJECT =
      """
      project: Settings
      plants:
        line:
          model: told
          with:
            mass: 1
            motor: {ohm: 20, gear: 14}
            beams: [{at: 1}, {at: 2}]
        spare:
          model: told
          with:
            mass: 9
            motor: {ohm: 90, gear: 94}
      """;

  /** Notes the settings that each plant is opened with. */
  private static final class Told implements PlantModel {
    final List<String> opened = new ArrayList<>();

    @Override
    public String name() {
      return "told";
    }

    @Override
    public List<Parameter> schema() {
      return List.of(
          Parameter.number("mass", "kg", 0, 100, ""),
          Parameter.item(
              "motor",
              List.of(
                  Parameter.number("ohm", "ohm", 0, 100, ""),
                  Parameter.integer("gear", 1, 100, "")),
              ""),
          Parameter.list("beams", List.of(Parameter.number("at", "m", 0, 100, "")), ""));
    }

    @Override
    public Plant open(Settings settings, Problems problems, RandomStream random) {
      Settings motor = settings.item("motor");
      opened.add(
          settings.number("mass")
              + " "
              + motor.number("ohm")
              + "/"
              + motor.integer("gear")
              + " "
              + settings.list("beams").stream().map(s -> s.number("at")).toList());
      return new ScriptedModel("told", p -> {}).open(settings, problems, random);
    }
  }

  @TempDir Path folder;
  private final Told told = new Told();
  private final Diagnostics problems = new Diagnostics();

  private VirtualRig build(Project project, String with) {
    Scenario scenario =
        Workbench.scenario(
            folder, "scenario: S\nfor: T#1s\n" + with + "expect:\n  - always: TRUE\n");
    return VirtualRig.build(project, PlantCatalog.of(told), scenario, problems);
  }

  private VirtualRig build(String with) {
    return build(Workbench.project(folder, PROJECT), with);
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "line: {} | 1.0 20.0/14 [1.0, 2.0]",
        "line: {mass: 2} | 2.0 20.0/14 [1.0, 2.0]",
        "line: {motor: {gear: 15}} | 1.0 20.0/15 [1.0, 2.0]",
        "line: {beams: [{at: 7}]} | 1.0 20.0/14 [7.0]",
        "line: {beams: []} | 1.0 20.0/14 []",
        "LINE: {mass: 3} | 3.0 20.0/14 [1.0, 2.0]",
        "line: {motor: {ohm: 21}, mass: 4} | 4.0 21.0/14 [1.0, 2.0]",
      })
  void areLaidOverThoseOfTheProject(String with, String settings) {
    assertNotNull(build("with:\n  " + with + "\n"), () -> "" + problems.sorted());
    assertEquals(List.of(settings, "9.0 90.0/94 []"), told.opened);
  }

  @Test
  void holdInTheirOwnScenarioOnly() {
    Project project = Workbench.project(folder, PROJECT);
    String before = "1.0 20.0/14 [1.0, 2.0]";
    assertNotNull(build(project, ""));
    assertNotNull(build(project, "with:\n  line: {mass: 2}\n  spare: {mass: 3}\n"));
    assertNotNull(build(project, ""));
    assertEquals(
        List.of(
            before,
            "9.0 90.0/94 []",
            "2.0 20.0/14 [1.0, 2.0]",
            "3.0 90.0/94 []",
            before,
            "9.0 90.0/94 []"),
        told.opened);
  }

  private Diagnostic onlyProblem(String with) {
    assertNull(build(with));
    assertEquals(1, problems.sorted().size(), () -> "" + problems.sorted());
    return problems.sorted().get(0);
  }

  @Test
  void areShownAtTheirOwnPlaceWhenWrong() {
    Diagnostic problem = onlyProblem("with:\n  line:\n    motor: {ohm: 101}\n");
    assertEquals("`ohm` cannot be `101`", problem.message());
    assertEquals("scenario.yaml", Path.of(problem.position().file()).getFileName().toString());
    assertEquals(5, problem.position().line());
    assertEquals(18, problem.position().column());
  }

  @Test
  void areShownWhenTheModelKnowsNoneSuch() {
    Diagnostic problem = onlyProblem("with:\n  line: {motor: {omh: 10}}\n");
    assertEquals("unknown key `omh` in `motor`", problem.message());
    assertEquals("did you mean `ohm`?", problem.help());
    assertEquals(4, problem.position().line());
  }

  @Test
  void nameAPlantOfTheProject() {
    build("with:\n  lien: {mass: 2}\n");
    Diagnostic problem = problems.sorted().get(0);
    assertEquals("no plant named `lien`", problem.message());
    assertEquals("did you mean `line`?", problem.help());
    assertEquals(3, problem.position().column());
    assertEquals(1, problems.errors());
  }
}
