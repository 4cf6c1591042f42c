package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which scenarios {@code test} runs, how many at once, and when again. */
class TestOptionsIT {
  private static final Duration LONG = Duration.ofSeconds(60);
  private static final Pattern HASH = Pattern.compile("\"trace_sha256\" : \"([0-9a-f]{64})\"");
  private static final int SCENARIOS = 12;

  private static final String PROJECT =
      """
      project: Counting house
      controller:
        operator:
          step: {type: UINT, initial: 1, range: [0, 1000]}
        internal:
          total: {type: UDINT}
        logic: |
          total := total + step;
      """;

  @TempDir Path folder;

  private Path project;

  @BeforeEach
  void write() throws IOException {
    project = Files.createDirectory(folder.resolve("counting"));
    Files.writeString(project.resolve("project.yaml"), PROJECT);
    Files.createDirectory(project.resolve("scenarios"));
    for (int i = 1; i <= SCENARIOS; i++) {
      scenario(i, "total < " + (i == 4 ? 5 : 100000));
    }
  }

  /** Each ends at another total, so that each has a trace of its own. */
  private void scenario(int number, String always) throws IOException {
    String text =
        """
        scenario: Count %d
        for: T#%ds
        tags: [%s]
        requirement: R-%d
        do:
          - {at: T#100ms, write: {step: %d}}
        expect:
          - {always: %s}
        """
            .formatted(number, number, number % 2 == 0 ? "even" : "odd", number, number, always);
    save(file(number), text);
  }

  /** In one step, as editors do: whoever watches never sees half of it. */
  private void save(Path file, String text) throws IOException {
    Path fresh = Files.writeString(folder.resolve("fresh"), text);
    Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
  }

  private Path file(int number) {
    return project.resolve("scenarios/%02d.yaml".formatted(number));
  }

  private String test(int status, String... options) {
    List<String> words = new ArrayList<>(List.of("test", project.toString()));
    words.addAll(Arrays.asList(options));
    try (Launched test = Launched.bufferstop(words.toArray(String[]::new))) {
      assertEquals(status, test.status(), test.output());
      return test.output();
    }
  }

  private static List<String> names(String output) {
    Matcher matcher = Pattern.compile("(?m)^(?:passed|failed) +(Count \\d+) ").matcher(output);
    List<String> names = new ArrayList<>();
    while (matcher.find()) {
      names.add(matcher.group(1));
    }
    return names;
  }

  private List<String> hashes(String report, String... options) throws IOException {
    List<String> words = new ArrayList<>(List.of("--report", folder.resolve(report).toString()));
    words.addAll(Arrays.asList(options));
    List<String> names = names(test(1, words.toArray(String[]::new)));
    assertEquals(SCENARIOS, names.size(), names::toString);
    assertEquals("Count 1", names.get(0));
    assertEquals("Count 12", names.get(SCENARIOS - 1));
    Matcher matcher =
        HASH.matcher(Files.readString(folder.resolve(report).resolve("results.json")));
    List<String> found = new ArrayList<>();
    while (matcher.find()) {
      found.add(matcher.group(1));
    }
    return found;
  }

  @Test
  void severalAtOnceHaveTheHashesAndTheOrderOfOneAlone() throws IOException {
    List<String> alone = hashes("one", "--jobs", "1");
    assertEquals(SCENARIOS, alone.stream().distinct().count());
    assertEquals(alone, hashes("four", "--jobs", "4"));
  }

  @Test
  void aFilterFindsNameFileAndRequirement() {
    assertEquals(List.of("Count 7"), names(test(0, "--filter", "count 7")));
    assertEquals(List.of("Count 11"), names(test(0, "--filter", "11.yaml")));
    assertEquals(
        List.of("Count 1", "Count 10", "Count 11", "Count 12"), names(test(0, "--filter", "r-1")));
    assertTrue(test(2, "--filter", "count 70").contains("no scenario in "));
  }

  @Test
  void aTagChoosesAndTagsAddUp() {
    assertEquals(
        List.of("Count 1", "Count 3", "Count 5", "Count 7", "Count 9", "Count 11"),
        names(test(0, "--tag", "ODD")));
    assertEquals(SCENARIOS, names(test(1, "--tag", "odd", "--tag", "even")).size());
    assertTrue(test(2, "--tag", "none").contains("no scenario in "));
  }

  @Test
  void theFirstFailureEndsAllWhereThatIsAskedFor() {
    assertEquals(SCENARIOS, names(test(1)).size());
    assertEquals(
        List.of("Count 1", "Count 2", "Count 3", "Count 4"), names(test(1, "--fail-fast")));
    assertEquals(
        List.of("Count 1", "Count 2", "Count 3", "Count 4"),
        names(test(1, "--fail-fast", "--jobs", "4")));
  }

  private static int rounds(Launched test) {
    return test.output().split("watching; ", -1).length - 1;
  }

  private static String round(Launched test, int number) {
    await().atMost(LONG).until(() -> rounds(test) > number);
    return test.output().split("watching; ", -1)[number];
  }

  @Test
  void aSavedFileRunsAgainWhatItAffects() throws IOException {
    try (Launched test = Launched.bufferstop("test", project.toString(), "--watch")) {
      String first = round(test, 0);
      assertEquals(SCENARIOS, names(first).size(), first);
      assertTrue(first.contains("11 passed, 0 inconclusive, 1 failed"), first);

      scenario(4, "total < 200000");
      String second = round(test, 1);
      assertTrue(second.contains("scenarios/04.yaml"), second);
      assertEquals(List.of("Count 4"), names(second), second);
      assertTrue(second.contains("1 passed, 0 inconclusive, 0 failed"), second);

      Path main = project.resolve("project.yaml");
      save(main, PROJECT.replace("total + step", "totl + step"));
      String third = round(test, 2);
      assertTrue(third.contains("did you mean `total`?"), third);
      assertEquals(List.of(), names(third), third);

      save(main, PROJECT.replace("total + step", "total + 50000 * step"));
      String fourth = round(test, 3);
      assertEquals(SCENARIOS, names(fourth).size(), fourth);
      assertFalse(fourth.contains("12 passed"), fourth);

      scenario(13, "total < 200000");
      String fifth = round(test, 4);
      assertEquals(List.of("Count 13"), names(fifth), fifth);
    }
  }
}
