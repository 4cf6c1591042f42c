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
      boolean sound = Rig.build(project, plants, 1, problems) != null;
      for (Path file : ScenarioFiles.of(project)) {
        Scenario scenario = ScenarioLoader.read(file, problems);
        if (sound && scenario != null) {
          VirtualRig rig = VirtualRig.build(project, plants, scenario, problems);
          if (rig != null) {
            ScenarioRun.link(scenario, rig, problems);
          }
        }
      }
    }
    Said.problems(problems, spec.commandLine().getOut());
    return problems.hasErrors() ? Exit.NOT_PROVEN : Exit.OK;
  }
}
