package bufferstop.report;

import bufferstop.model.Project;
import bufferstop.scenario.ScenarioResult;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** The folder that holds the evidence of one test run. */
public final class ReportFolder {
  private final Path folder;

  /** Makes the folder. */
  public ReportFolder(Path folder) throws IOException {
    this.folder = Files.createDirectories(folder);
  }

  /** Writes {@code results.json} and {@code junit.xml}. */
  public void write(Project project, String version, List<ScenarioResult> results)
      throws IOException {
    ResultsJson.write(folder.resolve("results.json"), project, version, results);
    JunitXml.write(folder.resolve("junit.xml"), project, results);
  }

  /** Writes a plant's picture at the end of a scenario as {@code pictures/SCENARIO-PLANT.svg}. */
  public void writePicture(String scenario, String plant, String svg) throws IOException {
    if (!svg.isEmpty()) {
      String name = (scenario + "-" + plant).toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
      Files.writeString(
          Files.createDirectories(folder.resolve("pictures")).resolve(name + ".svg"), svg);
    }
  }

  /** Writes a plant's picture as {@code PLANT.svg} into any folder. */
  public static void writePictureAtRest(Path folder, String plant, String svg) throws IOException {
    Files.writeString(Files.createDirectories(folder).resolve(plant + ".svg"), svg);
  }
}
