package bufferstop.load;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Always;
import bufferstop.model.Scenario.Inject;
import bufferstop.model.Scenario.Write;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Parameters, tables, seeds, what is random, and set-up files of scenarios. */
class TemplateTest {
  private static final String HEAD = "scenario: One\nfor: T#1s\n";

  @TempDir Path folder;

  private final Diagnostics problems = new Diagnostics();

  private List<Scenario> read(String yaml) throws IOException {
    return ScenarioLoader.read(Files.writeString(folder.resolve("s.yaml"), yaml), null, problems);
  }

  private List<String> messages() {
    return problems.sorted().stream().map(d -> d.message()).toList();
  }

  @Test
  void aTableMakesAScenarioOfEachRow() throws IOException {
    List<Scenario> all =
        read(
            """
            scenario: Wire breaks after $after
            requirement: [R-1, R-2]
            tags: [sensor, $mode]
            for: T#1s
            parameters: {mode: open, limit: 2.5}
            table:
              - {after: T#100ms}
              - {after: T#200ms, mode: stuck, row: late}
            do:
              - {at: $after, fault: {wire: beam, mode: $mode}}
            expect:
              - always: level < $limit
            """);
    assertEquals(List.of(), messages());
    assertEquals(
        List.of("Wire breaks after T#100ms [after = T#100ms]", "Wire breaks after T#200ms [late]"),
        all.stream().map(Scenario::name).toList());
    assertEquals("R-1, R-2", all.get(0).requirement());
    assertEquals(List.of("sensor", "open"), all.get(0).tags());
    assertEquals(100_000, all.get(0).stimuli().get(0).trigger().afterMicros());
    Inject late = (Inject) all.get(1).stimuli().get(0).deed();
    assertEquals("stuck", late.fault().mode().text());
    assertEquals("always level < 2.5", all.get(1).expectations().get(0).text());
  }

  @Test
  void whatIsPutInIsShownWhereItIsUsed() throws IOException {
    Scenario scenario =
        read(HEAD + "parameters: {limit: 2.5}\nexpect:\n  - always: x < $limit AND y\n").get(0);
    Always always = (Always) scenario.expectations().get(0);
    assertEquals("x < 2.5 AND y", always.that().value());
    assertEquals(17, always.that().at(4, 7).column()); // $limit
    assertEquals(6, always.that().at(4, 7).length());
    assertEquals(28, always.that().at(12, 13).column()); // y, behind it
  }

  @Test
  void aParameterMayBeAWholeMapping() throws IOException {
    List<Scenario> all =
        read(
            HEAD
                + """
                table:
                  - {row: a, bad: {wire: beam, mode: open}}
                  - {row: b, bad: {supply: dc24}}
                do:
                  - {at: T#0s, fault: $bad}
                expect: [{always: TRUE}]
                """);
    assertEquals(List.of(), messages());
    assertEquals("lost", ((Inject) all.get(1).stimuli().get(0).deed()).fault().mode().text());
  }

  @Test
  void anUnknownParameterIsShownWithTheNearest() throws IOException {
    read(HEAD + "parameters: {limit: 2}\nexpect:\n  - always: x < $limt\n");
    assertEquals(List.of("no parameter named `limt`"), messages());
    assertEquals("did you mean `limit`?", problems.sorted().get(0).help());
    assertEquals(5, problems.sorted().get(0).position().line());
  }

  @Test
  void aDollarInAStringLiteralIsLeftAlone() throws IOException {
    Scenario scenario =
        read(HEAD + "parameters: {n: 2}\nexpect:\n  - always: s = '$n' OR x = $n\n").get(0);
    assertEquals("always s = '$n' OR x = 2", scenario.expectations().get(0).text());
  }

  private static final String RANDOM =
      """
      scenario: Random
      for: T#10s
      seeds: 50
      do:
        - {at: {random: [T#1s, T#5s]}, write: {n: {random: [1, 3]}, x: {random: [0.5, 1.0]}}}
        - {at: T#9s, fault: {wire: {one_of: [a, b]}, mode: open}}
      expect: [{always: TRUE}]
      """;

  @Test
  void randomStaysWithinItsBoundsAndReachesAllOfThem() throws IOException {
    List<Scenario> all = read(RANDOM);
    assertEquals(List.of(), messages());
    assertEquals(50, all.size());
    assertEquals("Random (seed 50)", all.get(49).name());
    boolean[] seen = new boolean[4];
    for (Scenario scenario : all) {
      long at = scenario.stimuli().get(0).trigger().afterMicros();
      assertTrue(at >= 1_000_000 && at <= 5_000_000, "at " + at);
      Write write = (Write) scenario.stimuli().get(0).deed();
      int n = Integer.parseInt(write.values().get(0).value().value());
      seen[n] = true;
      double x = Double.parseDouble(write.values().get(1).value().value());
      assertTrue(x >= 0.5 && x <= 1.0, "x " + x);
    }
    assertTrue(seen[1] && seen[2] && seen[3]);
  }

  @Test
  void whatIsDrawnDependsOnTheSeedAndOnNothingElse() throws IOException {
    Scenario first = read(RANDOM).get(0);
    Scenario again = read(RANDOM.replace("for: T#10s", "for: T#11s")).get(0);
    assertEquals(
        first.stimuli().get(0).trigger().afterMicros(),
        again.stimuli().get(0).trigger().afterMicros());
    Scenario other = read(RANDOM).get(1);
    assertNotEquals(
        first.stimuli().get(0).trigger().afterMicros(),
        other.stimuli().get(0).trigger().afterMicros());
  }

  @Test
  void aNamedStimulusDrawsTheSameWhereverItStands() throws IOException {
    String named = "  - {id: late, at: {random: [T#1s, T#5s]}, write: {n: 1}}\n";
    String other = "  - {at: T#1s, write: {n: 2}}\n";
    String expect = "expect: [{always: TRUE}]\n";
    long alone =
        read(HEAD + "do:\n" + named + expect).get(0).stimuli().get(0).trigger().afterMicros();
    long second =
        read(HEAD + "do:\n" + other + named + expect)
            .get(0)
            .stimuli()
            .get(1)
            .trigger()
            .afterMicros();
    assertEquals(alone, second);
  }

  @Test
  void nothingIsDrawnBetweenWhatHasNoBetween() throws IOException {
    read(HEAD + "do:\n  - {at: {random: [T#5s, T#1s]}, write: {n: 1}}\nexpect: [{always: TRUE}]\n");
    assertEquals(List.of("nothing can be drawn between these"), messages());
  }

  @Test
  void setUpFilesComeBeforeWhatTheScenarioDoes() throws IOException {
    Files.createDirectories(folder.resolve("common"));
    Files.writeString(
        folder.resolve("common/ready.yaml"),
        """
        parameters: {wait: T#1s}
        with: {line: {mass: 1}}
        do:
          - {id: ready, at: $wait, press: panel.reset}
        expect:
          - never: struck
        """);
    Scenario scenario =
        read(HEAD
                + """
                setup: common/ready.yaml
                parameters: {wait: T#2s}
                do:
                  - {follows: ready, after: T#1s, press: panel.start}
                expect:
                  - always: moving
                """)
            .get(0);
    assertEquals(List.of(), messages());
    assertEquals(2_000_000, scenario.stimuli().get(0).trigger().afterMicros());
    assertEquals("ready", scenario.stimuli().get(1).trigger().follows());
    assertEquals(
        List.of("never struck", "always moving"),
        scenario.expectations().stream().map(e -> e.text()).toList());
    assertEquals("line", scenario.settings().get(0).key().text());
    assertEquals(2, scenario.reads().size());
  }
}
