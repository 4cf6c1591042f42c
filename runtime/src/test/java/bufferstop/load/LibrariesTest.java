package bufferstop.load;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Routine;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LibrariesTest {
  private static final String ONE = "functions: {one: {returns: INT, body: one := 1;}}\n";

  @TempDir Path folder;

  private final Diagnostics problems = new Diagnostics();

  private void write(String file, String text) throws IOException {
    Path path = folder.resolve(file);
    Files.createDirectories(path.getParent());
    Files.writeString(path, text);
  }

  private Project read(String project) {
    return ProjectLoader.read(folder.resolve(project), problems);
  }

  private static List<String> names(Project project) {
    return project.controller().routines().stream().map(Routine::name).toList();
  }

  @Test
  void arePathsFromTheFileThatNamesThem() throws IOException {
    write("works/pit/project.yaml", "project: pit\nlibraries: ../common/valves.yaml\n");
    write("works/common/valves.yaml", "library: Valves\nlibraries: [more/maths.yaml]\n" + ONE);
    write("works/common/more/maths.yaml", ONE.replace("one", "two"));
    Project project = read("works/pit");
    assertEquals(List.of(), problems.sorted());
    assertEquals(List.of("two", "one"), names(project));
  }

  @Test
  void areReadOnceHoweverOftenTheyAreNamed() throws IOException {
    write("project.yaml", "project: pit\nlibraries: [a.yaml, b.yaml, ./a.yaml]\n");
    write("a.yaml", "libraries: [b.yaml]\n" + ONE);
    write("b.yaml", "libraries: [a.yaml]\n" + ONE.replace("one", "two"));
    Project project = read("project.yaml");
    assertEquals(List.of(), problems.sorted());
    assertEquals(List.of("two", "one"), names(project));
  }

  @Test
  void areBeforeWhatTheProjectDefines() throws IOException {
    write("project.yaml", "project: pit\nlibraries: [a.yaml]\n" + ONE.replace("one", "three"));
    write("a.yaml", ONE);
    assertEquals(List.of("one", "three"), names(read("project.yaml")));
  }

  @Test
  void arePartOfTheDigest() throws IOException {
    write("project.yaml", "project: pit\nlibraries: [a.yaml]\n");
    write("a.yaml", ONE);
    String before = read("project.yaml").sha256();
    assertEquals(before, read("project.yaml").sha256());
    write("a.yaml", ONE.replace("one := 1", "one := 2"));
    assertNotEquals(before, read("project.yaml").sha256());
  }

  /** One missing file is one problem, however much depends on it. */
  @Test
  void oneThatIsMissingIsSaidOnce() throws IOException {
    write("project.yaml", "project: pit\nlibraries: [vlaves.yaml]\n");
    write("valves.yaml", ONE);
    read("project.yaml");
    assertEquals(1, problems.sorted().size());
    Diagnostic missing = problems.sorted().get(0);
    assertEquals("did you mean `valves.yaml`?", missing.help());
    assertEquals(2, missing.position().line());
  }
}
