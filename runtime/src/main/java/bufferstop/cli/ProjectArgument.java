package bufferstop.cli;

import bufferstop.load.ProjectLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.Rig;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What every command takes: a project and where plant models are. */
final class ProjectArgument {
  @Parameters(
      index = "0",
      paramLabel = "PROJECT",
      description = "a folder with project.yaml, or the file itself")
  private Path place;

  @Option(
      names = "--plants",
      paramLabel = "DIR",
      description = "folder with jars of further plant models; may be repeated")
  private List<Path> plantFolders = new ArrayList<>();

  /** As the user named it. */
  Path place() {
    return place;
  }

  /** The project as far as it can be read, or null. */
  Project load(Diagnostics problems) {
    return ProjectLoader.read(place, problems);
  }

  PlantCatalog plants(Diagnostics problems) {
    return PlantCatalog.find(plantFolders, problems);
  }

  /** The project put together, changed before by {@code change}; or null. */
  Rig rig(long seed, UnaryOperator<Project> change, Diagnostics problems) {
    PlantCatalog plants = plants(problems);
    Project project = load(problems);
    return project == null ? null : Rig.build(change.apply(project), plants, seed, problems);
  }
}
