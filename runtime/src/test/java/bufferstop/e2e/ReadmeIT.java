package bufferstop.e2e;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Every command of README.md and of the brickworks' README, run as written from the top of the
 * checkout, in order; what it prints is compared with what the page shows after masking times.
 * {@code scripts/test} alone is not run here, since it is what runs this test.
 */
class ReadmeIT {
  private static final int FEWEST_COMMANDS = 12;

  private static final List<String> PAGES = List.of("README.md", "configs/brickworks/README.md");

  private record Command(String page, int line, String text, List<String> output) {}

  @BeforeAll
  static void beginAfresh() throws IOException {
    Path tour = Launched.TOP.resolve("runtime/target/tour");
    if (Files.exists(tour)) {
      try (Stream<Path> files = Files.walk(tour)) {
        for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
  }

  @TestFactory
  List<DynamicTest> everyCommandPrintsWhatThePageShows() throws IOException {
    List<Command> commands = new ArrayList<>();
    for (String page : PAGES) {
      commands.addAll(commands(page));
    }
    assertTrue(commands.size() >= FEWEST_COMMANDS, "only " + commands.size() + " commands found");
    return commands.stream()
        .map(
            c ->
                DynamicTest.dynamicTest(c.page + " line " + c.line + ": " + c.text, () -> check(c)))
        .toList();
  }

  private static List<Command> commands(String page) throws IOException {
    List<Command> commands = new ArrayList<>();
    List<String> lines = Files.readAllLines(Launched.TOP.resolve(page));
    boolean inside = false;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      if (line.startsWith("```")) {
        inside = line.equals("```console");
      } else if (inside && line.startsWith("$ ")) {
        commands.add(new Command(page, i + 1, line.substring(2), new ArrayList<>()));
      } else if (inside && line.startsWith("> ")) {
        Command last = commands.remove(commands.size() - 1);
        commands.add(
            new Command(page, last.line, last.text + "\n" + line.substring(2), last.output));
      } else if (inside) {
        commands.get(commands.size() - 1).output.add(line);
      }
    }
    return commands;
  }

  private static void check(Command command) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder("bash", "-c", command.text)
            .directory(Launched.TOP.toFile())
            .redirectErrorStream(true)
            .start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    String shown = masked(String.join("\n", command.output));
    assertEquals(shown, elided(masked(output.stripTrailing()), shown), command.text);
  }

  /** The output with as many lines left out as the page leaves out where it shows an ellipsis. */
  private static String elided(String output, String shown) {
    List<String> page = List.of(shown.split("\n"));
    List<String> lines = new ArrayList<>(List.of(output.split("\n")));
    int ellipsis = page.indexOf("…");
    int last = lines.size() - (page.size() - 1 - ellipsis);
    if (ellipsis >= 0 && last > ellipsis) {
      lines.subList(ellipsis, last).clear();
      lines.add(ellipsis, "…");
    }
    return String.join("\n", lines);
  }

  /**
   * Hides what differs from machine to machine: times taken and the counts that follow from them.
   */
  private static String masked(String text) {
    return text.replaceAll("in \\d+\\.\\d+ s, \\d+ x real time", "in … s, … x real time")
        .replaceAll(
            "scans \\d+, period 10\\.0 ms, skipped \\d+", "scans …, period 10.0 ms, skipped …")
        .replaceAll("\\d+\\.\\d us", "… us")
        .replaceAll("(?m)[ ]+$", "");
  }
}
