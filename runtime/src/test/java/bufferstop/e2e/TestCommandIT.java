package bufferstop.e2e;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Scenarios through the real launcher. */
class TestCommandIT {
  private static final Pattern HASH = Pattern.compile("\"trace_sha256\" : \"([0-9a-f]{64})\"");
  private static final String SHED_BEAM = "configs/brickworks/scenarios/02-shed-beam-open.yaml";
  private static final String LOOSE_CONTACT =
      """
      scenario: A loose contact of the pit beam
      for: T#30s
      do:
        - {at: T#1s, press: panel.reset}
        - {when: haul.unlocated.X, press: panel.start}
        - {at: T#5s, fault: {wire: pit_beam, mode: chatter, every: T#20ms}, for: T#2s}
      expect:
        - never: hazards.struck_wall
      """;

  @TempDir Path folder;

  @Test
  void theGoodProjectPassesAllItsScenarios() {
    try (Launched test = Launched.bufferstop("test", "configs/brickworks")) {
      assertEquals(0, test.status(), test.output());
      assertTrue(test.output().contains("0 inconclusive, 0 failed"), test.output());
    }
  }

  @Test
  void theNaiveTwinFailsTheShedBeamScenarioAndNamesTheImpactSpeed() {
    try (Launched test = Launched.bufferstop("test", "configs/brickworks-naive", SHED_BEAM)) {
      assertEquals(1, test.status(), test.output());
      assertTrue(test.output().contains("failed: never hazards.struck_wall"), test.output());
      Pattern speed = Pattern.compile("line\\.shed_end\\.impact_speed = 0\\.\\d+ m/s since");
      assertTrue(speed.matcher(test.output()).find(), test.output());
    }
  }

  @Test
  void theSameRunHasTheSameHashWithAndWithoutTheCompiler() throws IOException {
    String loose = looseContact();
    List<String> first = hashes("a", List.of(), SHED_BEAM, loose);
    assertEquals(first, hashes("b", List.of(), SHED_BEAM, loose));
    assertEquals(first, hashes("c", List.of("-Xint"), SHED_BEAM, loose));
  }

  @Test
  void anotherSeedGivesAnotherHashWhereSomethingIsRandom() throws IOException {
    String loose = looseContact();
    List<String> seven = hashes("a", List.of(), loose, "--seed", "7");
    assertNotEquals(seven, hashes("b", List.of(), loose, "--seed", "8"));
    assertEquals(seven, hashes("c", List.of(), loose, "--seed", "7"));
  }

  private String looseContact() throws IOException {
    return Files.writeString(folder.resolve("loose.yaml"), LOOSE_CONTACT).toString();
  }

  private List<String> hashes(String name, List<String> javaOptions, String... more)
      throws IOException {
    Path report = folder.resolve(name);
    List<String> words = new ArrayList<>(List.of("test", "configs/brickworks"));
    words.addAll(List.of(more));
    words.addAll(List.of("--report", report.toString()));
    try (Launched test = Launched.bufferstop(javaOptions, words.toArray(String[]::new))) {
      test.status();
      Matcher matcher = HASH.matcher(Files.readString(report.resolve("results.json")));
      List<String> found = new ArrayList<>();
      while (matcher.find()) {
        found.add(matcher.group(1));
      }
      assertTrue(!found.isEmpty(), test.output());
      return found;
    }
  }

  @Test
  void theReportHoldsResultsAndPictures() throws IOException {
    Path report = folder.resolve("report");
    try (Launched test =
        Launched.bufferstop(
            "test", "configs/brickworks", SHED_BEAM, "--report", report.toString())) {
      assertEquals(0, test.status(), test.output());
    }
    assertTrue(Files.readString(report.resolve("junit.xml")).contains("failures=\"0\""));
    try (var pictures = Files.list(report.resolve("pictures"))) {
      List<String> names = pictures.map(p -> p.getFileName().toString()).sorted().toList();
      assertEquals(2, names.size(), names::toString);
      assertTrue(names.get(0).endsWith("-line-train-graph.svg"), names::toString);
      assertTrue(names.get(1).endsWith("-line.svg"), names::toString);
    }
  }

  @Test
  void aScenarioThatCannotBeLoadedEndsWithTwo() throws IOException {
    Path wrong = folder.resolve("wrong.yaml");
    Files.writeString(wrong, "scenario: wrong\nfor: T#1s\nexpect:\n  - {alwys: traction}\n");
    try (Launched test = Launched.bufferstop("test", "configs/brickworks", wrong.toString())) {
      assertEquals(2, test.status(), test.output());
      assertTrue(
          test.output().contains("wrong.yaml:4:6: error: unknown key `alwys`"), test.output());
    }
  }

  @Test
  void wrongUsageEndsWithTwo() {
    try (Launched none = Launched.bufferstop()) {
      assertEquals(2, none.status(), none.output());
      assertTrue(none.output().contains("Usage: bufferstop"), none.output());
    }
    try (Launched unknown = Launched.bufferstop("tset", "configs/brickworks")) {
      assertEquals(2, unknown.status(), unknown.output());
    }
  }

  @Test
  void aProjectThatIsNotThereIsOneDiagnostic() {
    try (Launched check = Launched.bufferstop("check", "configs/nowhere")) {
      assertEquals(1, check.status(), check.output());
      assertTrue(check.output().contains("there is no file `configs/nowhere`"), check.output());
      assertTrue(!check.output().contains("Exception"), check.output());
    }
  }
}
