package bufferstop.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The contract of {@code results.json}. */
class ResultsJsonTest {
  @TempDir Path folder;

  private Map<?, ?> written(String project, ScenarioResult... results) throws IOException {
    new ReportFolder(folder.resolve("new/report"))
        .write(Results.project(project), "1.2", List.of(results));
    try (JsonParser json =
        new JsonFactory().createParser(folder.resolve("new/report/results.json").toFile())) {
      json.nextToken();
      return (Map<?, ?>) value(json);
    }
  }

  private static Object value(JsonParser json) throws IOException {
    switch (json.currentToken()) {
      case START_OBJECT -> {
        Map<String, Object> object = new LinkedHashMap<>();
        while (json.nextToken() != JsonToken.END_OBJECT) {
          String key = json.currentName();
          json.nextToken();
          object.put(key, value(json));
        }
        return object;
      }
      case START_ARRAY -> {
        List<Object> array = new ArrayList<>();
        while (json.nextToken() != JsonToken.END_ARRAY) {
          array.add(value(json));
        }
        return array;
      }
      case VALUE_NULL -> {
        return null;
      }
      default -> {
        return json.currentToken().isNumeric() ? json.getNumberValue() : json.getText();
      }
    }
  }

  private static Map<?, ?> scenario(Map<?, ?> root, int number) {
    return (Map<?, ?>) ((List<?>) root.get("scenarios")).get(number);
  }

  private static Map<?, ?> expectation(Map<?, ?> scenario, int number) {
    return (Map<?, ?>) ((List<?>) scenario.get("expectations")).get(number);
  }

  @Test
  void hasEveryFieldOfTheContract() throws IOException {
    Map<?, ?> root =
        written(
            "Gravel",
            Results.scenario(
                "Haul",
                "s/01.yaml",
                7,
                Verdict.FAILED,
                Results.expectation("always gap > 0.1", Verdict.FAILED, -0.25, 1_500_500)));
    assertEquals("Gravel", root.get("project"));
    assertEquals("ab12", root.get("project_sha256"));
    assertEquals("1.2", root.get("version"));
    assertEquals(7, root.get("seed"));
    Map<?, ?> scenario = scenario(root, 0);
    assertEquals("Haul", scenario.get("name"));
    assertEquals("s/01.yaml", scenario.get("file"));
    assertEquals("R-1", scenario.get("requirement"));
    assertEquals("failed", scenario.get("verdict"));
    assertEquals(100, scenario.get("scans"));
    assertEquals(2, scenario.get("wall_ms"));
    assertEquals("cd34", scenario.get("trace_sha256"));
    Map<?, ?> expectation = expectation(scenario, 0);
    assertEquals("always gap > 0.1", expectation.get("text"));
    assertEquals("failed", expectation.get("verdict"));
    assertEquals(-0.25, expectation.get("margin"));
    assertEquals("m", expectation.get("unit"));
    assertEquals(1500.5, expectation.get("at_ms"));
  }

  @Test
  void whatThereIsNotIsNull() throws IOException {
    Map<?, ?> scenario =
        scenario(
            written(
                "p",
                Results.scenario(
                    "a",
                    "f",
                    1,
                    Verdict.PASSED,
                    Results.expectation("x", Verdict.PASSED, null, -1),
                    Results.expectation("y", Verdict.PASSED, Double.NEGATIVE_INFINITY, 0))),
            0);
    assertTrue(expectation(scenario, 0).containsKey("margin"));
    assertEquals(null, expectation(scenario, 0).get("margin"));
    assertEquals(null, expectation(scenario, 0).get("at_ms"));
    assertEquals(null, expectation(scenario, 1).get("margin"), "JSON has no infinity");
    assertEquals(0.0, expectation(scenario, 1).get("at_ms"));
  }

  @Test
  void everyBypassIsCounted() throws IOException {
    Map<?, ?> scenario = scenario(written("p", Results.scenario("a", "f", 1, Verdict.PASSED)), 0);
    assertEquals(
        List.of(
            Map.of("interlock", "line_stop", "cause", "chain_open", "times", 2, "would_act", 1)),
        scenario.get("bypasses"));
  }

  @Test
  void differentSeedsAreToldByTheScenarios() throws IOException {
    Map<?, ?> root =
        written(
            "p",
            Results.scenario("a", "f", 1, Verdict.PASSED),
            Results.scenario("b", "g", -2, Verdict.INCONCLUSIVE));
    assertEquals(null, root.get("seed"));
    assertEquals(-2, scenario(root, 1).get("seed"));
    assertEquals(List.of("the trigger never came"), scenario(root, 1).get("notes"));
    assertEquals("inconclusive", scenario(root, 1).get("verdict"));
  }

  @Test
  void namesKeepEveryCharacter() throws IOException {
    String odd = "say \"hi\" \\ \n\t\u0007 <\uD83D\uDE82>";
    Map<?, ?> root = written(odd, Results.scenario(odd, "f", 1, Verdict.PASSED));
    assertEquals(odd, root.get("project"));
    assertEquals(odd, scenario(root, 0).get("name"));
  }

  @Test
  void aPictureGetsANameThatEveryFileSystemTakes() throws IOException {
    ReportFolder report = new ReportFolder(folder);
    report.writePicture("A haul: there/back", "Line", "<svg/>");
    report.writePicture("no picture", "line", "");
    assertEquals("<svg/>", Files.readString(folder.resolve("pictures/a-haul-there-back-line.svg")));
    try (var files = Files.list(folder.resolve("pictures"))) {
      assertEquals(1, files.count());
    }
  }

  @Test
  void tellsOfAlarmsWhatTheyDid() throws IOException {
    Map<?, ?> scenario = scenario(written("a", Results.scenario("n", "f", 1, Verdict.PASSED)), 0);
    Map<?, ?> alarms = (Map<?, ?>) scenario.get("alarms");
    assertEquals(1, alarms.get("floods"));
    assertEquals(2000, alarms.get("flood_ms"));
    assertEquals(0, alarms.get("events_left_out"));
    assertEquals(
        "[{alarm=pit_slow, activations=3, standing=true, chattering=true, stale=false},"
            + " {alarm=horn, activations=1, standing=false, chattering=false, stale=false}]",
        alarms.get("counts").toString());
    assertEquals(
        "[{at_ms=500.0, scan=50, alarm=pit_slow, event=comes}]", alarms.get("events").toString());
  }
}
