package bufferstop.report;

import bufferstop.model.Controller;
import bufferstop.model.Definitions;
import bufferstop.model.Field;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.SourceText;
import bufferstop.scenario.AlarmSummary;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.nio.file.Path;
import java.util.List;

/** Made-up results for tests of reports. */
final class Results {
  private Results() {}

  static Project project(String name) {
    return new Project(
        name,
        Path.of("p"),
        Path.of("p/scenarios"),
        10_000,
        1_000,
        0,
        0,
        new Controller(
            Definitions.NONE,
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            SourceText.of(""),
            List.of(),
            null),
        new Field(List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of()),
        List.of(),
        List.of(),
        null,
        List.of(),
        "ab12");
  }

  static ScenarioResult scenario(
      String name, String file, long seed, Verdict verdict, ExpectationResult... expectations) {
    Scenario scenario =
        new Scenario(
            name,
            file,
            "R-1",
            List.of(),
            List.of(file),
            1_000_000,
            seed,
            List.of(),
            List.of(),
            List.of(),
            Position.ofFile(file));
    return new ScenarioResult(
        scenario,
        verdict,
        100,
        1_000_000,
        2_500_000,
        "cd34",
        List.of(expectations),
        verdict == Verdict.INCONCLUSIVE ? List.of("the trigger never came") : List.of(),
        List.of(new BypassCount("line_stop", "chain_open", 2, 1)),
        new AlarmSummary(
            List.of(
                new AlarmSummary.Count("pit_slow", 3, true, true, false),
                new AlarmSummary.Count("horn", 1, false, false, false)),
            1,
            2_000_000,
            List.of(new AlarmSummary.Event(500_000, 50, "pit_slow", "comes")),
            0));
  }

  static ExpectationResult expectation(String text, Verdict verdict, Double margin, long atMicros) {
    String reason = verdict == Verdict.PASSED ? "" : "it came true at T#1s";
    return new ExpectationResult(
        text, verdict, margin, "m", atMicros, reason, List.of(), List.of("x = 1"), List.of());
  }
}
