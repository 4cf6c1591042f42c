package bufferstop.e2e;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Csv;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Traces of a scenario: questions to them, and what they export. */
class TraceIT {
  private static final String SCENARIO =
      "configs/brickworks/scenarios/58-nothing-before-reset.yaml";

  @TempDir static Path folder;

  private static String trace;

  @BeforeAll
  static void aScenarioIsTraced() throws IOException {
    Path traces = folder.resolve("traces");
    ended("test", "configs/brickworks", SCENARIO, "--trace", traces.toString());
    try (Stream<Path> files = Files.list(traces)) {
      trace = files.findFirst().orElseThrow().toString();
    }
  }

  private static String ended(String... arguments) {
    try (Launched command = Launched.bufferstop(arguments)) {
      assertEquals(0, command.status(), command.output());
      return command.output();
    }
  }

  @Test
  void theFilesDigestIsTheIdentityOfTheRun() throws IOException {
    Path report = folder.resolve("report");
    ended("test", "configs/brickworks", SCENARIO, "--report", report.toString());
    String results = Files.readString(report.resolve("results.json"));
    String summary = ended("trace", trace);
    String sha256 = summary.replaceAll("(?s).*sha256 ([0-9a-f]{64}).*", "$1");
    assertTrue(results.contains("\"trace_sha256\" : \"" + sha256 + "\""), sha256 + results);
  }

  @Test
  void answersWhatWasWhenAndWhatHappened() {
    assertEquals(
        "haul.standby.X = TRUE since T#0s",
        ended("trace", trace, "--value", "haul.standby.x", "--at", "T#50ms"));
    String changes = ended("trace", trace, "--changes", "haul.standby.X");
    assertTrue(changes.startsWith("T#0s  haul.standby.X = TRUE"), changes);
    String happened = ended("trace", trace, "--happened", "--to", "10s");
    assertTrue(happened.contains("haul.standby.X = TRUE"), happened);
    assertTrue(happened.contains("press: panel."), happened);
    try (Launched wrong = Launched.bufferstop("trace", trace, "--value", "haul.standbi.X")) {
      assertEquals(2, wrong.status());
      assertTrue(wrong.output().contains("did you mean `haul.standby.X`"), wrong.output());
    }
  }

  @Test
  void exportsCommaSeparatedValues() throws Exception {
    Path csv = folder.resolve("t.csv");
    ended(
        "trace",
        trace,
        "--csv",
        csv.toString(),
        "--on-change",
        "--points",
        "haul.standby.X,scan.time");
    List<List<String>> all = Csv.read(Files.readString(csv));
    assertEquals(List.of("time_ms", "haul.standby.X", "scan.time"), all.get(0));
    assertEquals(List.of("0", "1", "0"), all.get(1));
    assertEquals(List.of("10", "1", "10"), all.get(2));
  }

  @Test
  void aStoredRunPassesAgainstItselfAndFailsAgainstAnother() throws IOException {
    Path csv = folder.resolve("golden.csv");
    String points = "haul.standby.X,line.loco.engine.position,traction";
    String known = ended("trace", trace, "--value", "line.*");
    points = "haul.standby.X,traction," + known.substring(0, known.indexOf(' '));
    ended("trace", trace, "--csv", csv.toString(), "--points", points);
    String text = Files.readString(Launched.TOP.resolve(SCENARIO));
    String golden = "  - {golden: golden.csv}\n";
    Path same = Files.writeString(folder.resolve("same.yaml"), text + golden);
    ended("test", "configs/brickworks", same.toString());
    Files.writeString(csv, Files.readString(csv).replaceFirst("\r\n20,1,0", "\r\n20,0,0"));
    try (Launched other = Launched.bufferstop("test", "configs/brickworks", same.toString())) {
      assertEquals(1, other.status(), other.output());
      assertTrue(
          other.output().contains("`haul.standby.X` was TRUE at T#20ms and FALSE"), other.output());
    }
  }

  @Test
  void anotherReaderOfValueChangeDumpsFindsTheSameValues() throws Exception {
    Path vcd = folder.resolve("t.vcd");
    ended("trace", trace, "--vcd", vcd.toString());
    Map<String, TreeMap<Long, String>> written = Vcd.read(Files.readString(vcd)).changes();
    assertTrue(written.size() > 400, written.size() + " signals");
    assertTrue(VcdRoundTrip.compare(vcd) > 2_000, "too few values");
  }
}
