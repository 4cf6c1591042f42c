package bufferstop.cli;

import bufferstop.model.Project;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The scenario files of a project: every {@code *.yaml} in its scenarios folder, by name. */
final class ScenarioFiles {
  private ScenarioFiles() {}

  static List<Path> of(Project project) {
    if (!Files.isDirectory(project.scenarios())) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(project.scenarios())) {
      return files.filter(f -> f.getFileName().toString().endsWith(".yaml")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
