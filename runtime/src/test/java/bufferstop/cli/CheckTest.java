package bufferstop.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Code;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The command over every project under {@code diagnostics/}: exactly what {@code expected.txt} says
 * is printed, and every problem stands on the line that is marked with it.
 */
class CheckTest {
  private static final Path CORPUS = Path.of("src/test/resources/diagnostics");
  private static final Pattern MARK =
      Pattern.compile("#! (error|warning): (.+?)\\s*(?:\\*\\))?$", Pattern.MULTILINE);
  private static final Pattern FOUND =
      Pattern.compile("^(\\S+):(\\d+):\\d+: (error|warning): (.*)$", Pattern.MULTILINE);

  private record Checked(int status, String output) {}

  static List<String> projects() throws IOException {
    try (Stream<Path> folders = Files.list(CORPUS)) {
      return folders.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void theCorpusIsThere() throws IOException {
    assertTrue(projects().size() >= 64, "only " + projects());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("projects")
  void printsWhatIsExpected(String project) throws IOException {
    Checked checked = check(CORPUS.resolve(project));
    Path expected = CORPUS.resolve(project).resolve("expected.txt");
    assertTrue(Files.exists(CORPUS.resolve(project).resolve("project.yaml")), "no project.yaml");
    assertEquals(Files.readString(expected), masked(checked, project));
    assertEquals(Exit.NOT_PROVEN, checked.status);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("projects")
  void everyProblemStandsWhereItIsMarked(String project) throws IOException {
    List<String> marks = marks(project);
    List<String> found = new ArrayList<>();
    Matcher matcher = FOUND.matcher(masked(check(CORPUS.resolve(project)), project));
    while (matcher.find()) {
      found.add(
          matcher.group(1)
              + ":"
              + matcher.group(2)
              + " "
              + matcher.group(3)
              + " "
              + matcher.group(4));
    }
    assertEquals(marks.size(), found.size(), found::toString);
    for (int i = 0; i < marks.size(); i++) {
      assertTrue(found.get(i).startsWith(marks.get(i)), found.get(i) + " for " + marks.get(i));
    }
  }

  @Test
  void twentyMistakesAreTwentyErrorsInOnePassInTheOrderOfTheirPlaces() throws IOException {
    Checked checked = check(CORPUS.resolve("twenty-mistakes"));
    assertEquals(20, FOUND.matcher(checked.output).results().count());
    assertTrue(checked.output.endsWith("20 errors in 2 files\n"), checked.output);
    assertFalse(checked.output.contains("\tat "), "a stack trace");
    assertFalse(checked.output.contains("Exception"), "an exception");
    assertEquals(Exit.NOT_PROVEN, checked.status);
  }

  @Test
  void aProjectWithoutProblemsEndsWell() {
    Checked checked = check(Path.of("../configs/brickworks"));
    assertEquals(new Checked(Exit.OK, "no problems\n"), checked);
  }

  @Test
  void aFolderWithoutAProjectIsOneProblem() {
    Checked checked = check(Path.of("src/test/resources"));
    assertEquals(
        """
        src/test/resources/project.yaml:1:1: error: there is no file `src/test/resources/project.yaml`
        1 error in 1 file
        """,
        checked.output);
    assertEquals(Exit.NOT_PROVEN, checked.status);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("projects")
  void editorsGetTheSameProblemsAsObjects(String project) throws IOException {
    Checked text = check(CORPUS.resolve(project));
    Checked json = check("--format", "json", CORPUS.resolve(project).toString());
    List<String> places = new ArrayList<>();
    ObjectMapper mapper = new ObjectMapper();
    for (String line : json.output.lines().toList()) {
      JsonNode problem = mapper.readTree(line);
      assertTrue(Code.of(problem.get("code").asText()).isPresent(), line);
      assertTrue(problem.get("end").asInt() >= problem.get("column").asInt(), line);
      places.add(
          "%s:%d:%d: %s: %s"
              .formatted(
                  problem.get("file").asText(),
                  problem.get("line").asInt(),
                  problem.get("column").asInt(),
                  problem.get("severity").asText(),
                  problem.get("message").asText()));
    }
    List<String> printed =
        text.output.lines().filter(l -> l.matches("\\S+:\\d+:\\d+: (error|warning): .*")).toList();
    assertEquals(printed, places);
    assertEquals(text.status, json.status);
  }

  @Test
  void everyCodeIsExplained() {
    for (Code code : Code.values()) {
      Checked explained = check("--explain", code.word());
      assertEquals(Exit.OK, explained.status);
      assertEquals(4, explained.output.lines().count(), explained.output);
      assertTrue(explained.output.contains(code.remedy()), explained.output);
    }
    assertEquals(Code.values().length, check("--explain").output.lines().count());
    assertEquals(Exit.NOT_LOADED, check("--explain", "unknwon-key").status);
  }

  private static Checked check(Path project) {
    return check(project.toString());
  }

  private static Checked check(String... arguments) {
    List<String> words = new ArrayList<>(List.of("check"));
    words.addAll(List.of(arguments));
    PrintStream before = System.out;
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
    try {
      int status = Main.run(words.toArray(String[]::new));
      return new Checked(status, bytes.toString(StandardCharsets.UTF_8));
    } finally {
      System.setOut(before);
    }
  }

  private static String masked(Checked checked, String project) {
    return checked.output.replace(CORPUS + "/" + project + "/", "");
  }

  /** The marks of all files, as {@code file:line severity message}, in the order of places. */
  private static List<String> marks(String project) throws IOException {
    List<String> marks = new ArrayList<>();
    Path folder = CORPUS.resolve(project);
    List<Path> files;
    try (Stream<Path> all = Files.walk(folder)) {
      files = all.filter(f -> f.toString().endsWith(".yaml")).sorted().toList();
    }
    for (Path file : files) {
      String[] lines =
          new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1).split("\n");
      for (int i = 0; i < lines.length; i++) {
        Matcher mark = MARK.matcher(lines[i]);
        if (mark.find()) {
          String place = folder.relativize(file) + ":" + (i + 1);
          marks.add(place + " " + mark.group(1) + " " + mark.group(2));
        }
      }
    }
    return marks;
  }
}
