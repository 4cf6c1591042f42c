package bufferstop.cli;

import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.Batch;
import bufferstop.rig.Rig;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
      Rig sound =
          Rig.build(project, plants, 1, problems); // before scenarios add problems of theirs
      List<Scenario> scenarios = new ArrayList<>();
      for (Path file : ScenarioFiles.of(project)) {
        scenarios.addAll(ScenarioLoader.read(file, null, problems));
      }
      Batch.check(project, plants, sound, scenarios, problems);
    }
    Said.problems(problems, spec.commandLine().getOut());
    return problems.hasErrors() ? Exit.NOT_PROVEN : Exit.OK;
  }
}
