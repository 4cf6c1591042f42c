package bufferstop.load;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.report.DiagnosticText;
import bufferstop.rig.Rig;
import bufferstop.rig.VirtualRig;
import bufferstop.scenario.ScenarioRun;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Random edits of a whole project: whatever a slip of the hand makes of it, loading ends, throws
 * nothing, and says where the problem is. A run is repeated with {@code -Dload.seed=N}, and widened
 * with {@code -Dload.edits=N}.
 */
class LoadProperties {
  private static final Path PROJECT = Path.of("../configs/brickworks");
  private static final int EDITS = 2_000;
  private static final Duration LONGEST = Duration.ofSeconds(20);
  private static final String CHARACTERS = "{}[]:,#&*!|>'\"%@`-?\t \n\\.=<>()x0~^";

  @TempDir Path folder;

  @Test
  void anEditedProjectIsReadOrItsProblemIsShown() throws IOException {
    long base = Long.getLong("load.seed", 20_261_125L);
    int count = Integer.getInteger("load.edits", Long.getLong("load.seed") == null ? EDITS : 1);
    List<Path> files = copy();
    PlantCatalog plants = PlantCatalog.find(List.of(), new Diagnostics());
    int unsound = 0;
    for (int i = 0; i < count; i++) {
      long seed = base + i;
      Random random = new Random(seed);
      Path file = files.get(random.nextInt(files.size()));
      String before = Files.readString(file);
      Files.writeString(file, edited(before, random));
      try {
        unsound += assertTimeoutPreemptively(LONGEST, () -> problems(plants)) > 0 ? 1 : 0;
      } catch (RuntimeException | Error e) {
        fail("-Dload.seed=" + seed + " in " + file.getFileName(), e);
      }
      Files.writeString(file, before);
    }
    assertTrue(count == 1 || unsound > count / 4, unsound + " edits did harm");
  }

  private List<Path> copy() throws IOException {
    List<Path> copies = new ArrayList<>();
    try (Stream<Path> all = Files.walk(PROJECT)) {
      for (Path file : all.filter(f -> f.toString().endsWith(".yaml")).sorted().toList()) {
        Path target = folder.resolve(PROJECT.relativize(file));
        Files.createDirectories(target.getParent());
        copies.add(Files.copy(file, target));
      }
    }
    return copies;
  }

  /** Loads everything as the command check does; how many errors there were. */
  private int problems(PlantCatalog plants) throws IOException {
    Diagnostics problems = new Diagnostics();
    Project project = ProjectLoader.read(folder, problems);
    Rig rig = project == null ? null : Rig.build(project, plants, 1, problems);
    assertTrue(rig != null || problems.hasErrors(), "no reason is given");
    if (project != null && Files.isDirectory(project.scenarios())) {
      try (Stream<Path> files = Files.list(project.scenarios())) {
        for (Path file : files.sorted().toList()) {
          List<Scenario> scenarios = ScenarioLoader.read(file, null, problems);
          assertTrue(!scenarios.isEmpty() || problems.hasErrors(), "no reason is given");
          for (Scenario scenario : rig == null ? List.<Scenario>of() : scenarios) {
            ScenarioRun.link(scenario, new VirtualRig(rig), problems);
          }
        }
      }
    }
    for (Diagnostic diagnostic : problems.sorted()) {
      assertInside(diagnostic.position());
      diagnostic.notes().forEach(n -> assertInside(n.position()));
    }
    assertTrue(!new DiagnosticText().render(problems.sorted()).isEmpty());
    return problems.errors();
  }

  private static void assertInside(Position position) {
    try {
      List<String> lines = Files.readString(Path.of(position.file())).lines().toList();
      int line = position.line();
      boolean onLine = line >= 1 && line <= lines.size() || line == 1 && lines.isEmpty();
      String text = lines.isEmpty() ? "" : lines.get(Math.min(line, lines.size()) - 1);
      boolean inLine = position.column() >= 1 && position.column() <= text.length() + 1;
      assertTrue(onLine && inLine, position + " lies outside: " + text);
    } catch (IOException e) {
      fail(position + " lies in no file", e);
    }
  }

  private static String edited(String text, Random random) {
    String result = text;
    for (int i = random.nextInt(3); i >= 0; i--) {
      result =
          random.nextInt(3) == 0 ? lineEdited(result, random) : characterEdited(result, random);
    }
    return result;
  }

  private static String characterEdited(String text, Random random) {
    if (text.isEmpty()) {
      return "x";
    }
    int at = random.nextInt(text.length());
    String other = CHARACTERS.charAt(random.nextInt(CHARACTERS.length())) + "";
    return switch (random.nextInt(4)) {
      case 0 -> text.substring(0, at) + text.substring(at + 1);
      case 1 -> text.substring(0, at) + text.charAt(at) + text.substring(at);
      case 2 -> text.substring(0, at) + other + text.substring(at + 1);
      default -> text.substring(0, at) + other + text.substring(at);
    };
  }

  private static String lineEdited(String text, Random random) {
    List<String> lines = new ArrayList<>(text.lines().toList());
    if (lines.isEmpty()) {
      return "x";
    }
    int at = random.nextInt(lines.size());
    switch (random.nextInt(5)) {
      case 0 -> lines.remove(at);
      case 1 -> lines.add(at, lines.get(at));
      case 2 -> lines.add(at, lines.get(random.nextInt(lines.size())));
      case 3 -> lines.set(at, "  " + lines.get(at));
      default -> lines.set(at, lines.get(at).replaceFirst(":.*", ":"));
    }
    return String.join("\n", lines) + "\n";
  }
}
