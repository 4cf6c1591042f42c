package bufferstop.cli;

import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.Rig;
import bufferstop.rig.VirtualRig;
import bufferstop.scenario.ScenarioRun;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code check}: loads and validates, prints every problem. */
@Command(
    name = "check",
    description = "Loads a project and its scenarios and prints every problem with its place.",
    mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  @Mixin private ProjectArgument argument;
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = argument.plants(problems);
    Project project = argument.load(problems);
    if (project != null) {
      checkScenarios(project, plants, Rig.build(project, plants, 1, problems), problems);
    }
    Said.problems(problems, spec.commandLine().getOut());
    return problems.hasErrors() ? Exit.NOT_PROVEN : Exit.OK;
  }

  /** A scenario is linked, not run, so those without settings of their own share one rig. */
  private static void checkScenarios(
      Project project, PlantCatalog plants, Rig sound, Diagnostics problems) {
    VirtualRig shared = sound == null ? null : new VirtualRig(sound);
    for (Path file : ScenarioFiles.of(project)) {
      for (Scenario scenario : ScenarioLoader.read(file, null, problems)) {
        VirtualRig rig =
            shared == null || scenario.settings().isEmpty()
                ? shared
                : VirtualRig.build(project, plants, scenario, problems);
        if (rig != null) {
          ScenarioRun.link(scenario, rig, problems);
        }
      }
    }
  }
}
