package bufferstop.load;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Controller;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Point;
import bufferstop.model.Project;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProjectLoaderTest {
  @TempDir Path folder;
  private final Diagnostics problems = new Diagnostics();

  private Project load(String yaml) throws IOException {
    Files.writeString(folder.resolve("project.yaml"), yaml);
    return ProjectLoader.read(folder, problems);
  }

  private Point point(String declaration) throws IOException {
    return load("project: p\ncontroller:\n  operator:\n    x: " + declaration + "\n")
        .controller()
        .points()
        .get(0);
  }

  private List<String> messages() {
    return problems.sorted().stream().map(d -> d.message()).toList();
  }

  private String place() {
    return problems.sorted().get(0).position().toString().replace(folder + "/", "");
  }

  @ParameterizedTest(name = "{0} {1} is {2}")
  @CsvSource({
    "INT, 012, 12",
    "INT, 16#10, 16",
    "BOOL, TRUE, 1",
    "BOOL, false, 0",
    "TIME, T#1s500ms, 1500000",
    "UINT, '\"7\"', 7"
  })
  void aValueIsReadByTheTypeOfItsPoint(String type, String value, long bits) throws IOException {
    assertEquals(bits, point("{type: " + type + ", initial: " + value + "}").initial());
    assertEquals(List.of(), messages());
  }

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource({
    "BOOL, no",
    "BOOL, on",
    "BOOL, yes",
    "INT, 0x10",
    "INT, 1e3",
    "INT, ~",
    "INT, 'null'",
    "TIME, 30"
  })
  void whatIsNoLiteralOfTheTypeIsOneProblem(String type, String value) throws IOException {
    point("{type: " + type + ", initial: " + value + "}");
    assertEquals(1, messages().size(), messages()::toString);
    assertEquals("project.yaml:4:" + (26 + type.length()), place());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({"no", "on", "012", "1e3", "~", "null"})
  void aTextIsWhateverStandsThere(String text) throws IOException {
    assertEquals(text, point("{type: BOOL, text: " + text + "}").text());
    assertEquals(List.of(), messages());
  }

  @Test
  void defaultsAreTheDocumentedOnes() throws IOException {
    Project project = load("project: p\n");
    assertEquals(10_000, project.periodMicros());
    assertEquals(1_000, project.plantStepMicros());
    assertEquals(500_000, project.watchdogMicros());
    assertEquals(1_000_000, project.catchUpMicros());
    assertEquals(folder.resolve("scenarios"), project.scenarios());
    assertEquals(List.of(), messages());
  }

  @Test
  void sectionsMayStandInFilesOfTheirOwnFoundFromTheFileThatNamesThem() throws IOException {
    Files.createDirectories(folder.resolve("parts/deep"));
    Files.writeString(folder.resolve("parts/controller.yaml"), "inputs: deep/inputs.yaml\n");
    Files.writeString(folder.resolve("parts/deep/inputs.yaml"), "beam: {type: BOOL}\n");
    Project project = load("project: p\ncontroller: parts/controller.yaml\n");
    Point beam = project.controller().points().get(0);
    assertEquals("beam", beam.name());
    assertTrue(beam.position().toString().endsWith("parts/deep/inputs.yaml:1:1"));
    assertEquals(List.of(), messages());
  }

  @Test
  void aFileWithWindowsLineEndsAndAByteOrderMarkIsReadWithItsPlaces() throws IOException {
    String yaml = "\uFEFFproject: p\r\ncontroller:\r\n  inputs:\r\n    beam: {type: BOL}\r\n";
    load(yaml);
    assertEquals(List.of("no type named `BOL`"), messages());
    assertEquals("project.yaml:4:18", place());
  }

  @Test
  void aProblemInsideTheLogicStandsAtItsOwnLineAndColumn() throws IOException {
    Project project =
        load("project: p\r\ncontroller:\r\n  logic: |\r\n    a := 1;\r\n    b := 2;\r\n");
    assertEquals("5:5+1", YamlTrees.place(project.controller().logic(), "b"));
  }

  @Test
  void theDigestTellsEveryFileRead() throws IOException {
    Files.writeString(folder.resolve("c.yaml"), "inputs: {}\n");
    String first = load("project: p\ncontroller: c.yaml\n").sha256();
    Files.writeString(folder.resolve("c.yaml"), "inputs: {} # changed\n");
    String second = load("project: p\ncontroller: c.yaml\n").sha256();
    assertNotEquals(first, second);
    assertTrue(first.matches("[0-9a-f]{64}"), first);
  }

  @Test
  void anActionIsAQualifierATimeAndAPointAndWithoutQualifierN() throws IOException {
    Project project =
        load(
            """
            project: p
            controller:
              sequences:
                s:
                  steps:
                    idle: {initial: TRUE, do: [gate, s lamp, R  horn, sl T#1s500ms  bell]}
                  transitions: []
            """);
    List<Controller.Action> actions =
        project.controller().sequences().get(0).steps().get(0).actions();
    assertEquals(
        List.of("N 0 gate", "S 0 lamp", "R 0 horn", "SL 1500000 bell"),
        actions.stream()
            .map(a -> a.qualifier() + " " + a.micros() + " " + a.target().text())
            .toList());
    assertEquals(53, actions.get(2).target().position().column());
    assertEquals(73, actions.get(3).target().position().column());
  }

  @Test
  void aWireIsCalledAfterItsOwnNameElseThePointItLandsOnElseItsBeginning() throws IOException {
    Project project =
        load(
            """
            project: p
            controller:
              inputs: {beam: {type: BOOL}}
              outputs: {gate: {type: BOOL}}
            wiring:
              - {from: panel.test, to: beam}
              - {from: gate, to: panel.lamp}
              - {from: circuits.feed, to: line.feed, name: contactor}
            """);
    assertEquals(
        List.of("beam", "gate", "contactor"),
        project.field().wires().stream().map(Field.Wire::name).toList());
  }

  @Test
  void aModbusMapIsReadWithItsDefaults() throws IOException {
    Project project =
        load(
            """
            project: p
            modbus:
              hmi:
                listen: 127.0.0.1:0
                map:
                  - {point: a, coil: 3}
                  - {point: b, input_register: 65535, word_order: low_word_first}
            """);
    ModbusMap map = project.map("hmi");
    assertEquals("127.0.0.1", map.host());
    assertEquals(0, map.port());
    assertEquals(1, map.unit());
    assertEquals(WordOrder.HIGH_WORD_FIRST, map.entries().get(0).coding().words());
    assertEquals(WordOrder.LOW_WORD_FIRST, map.entries().get(1).coding().words());
    assertEquals(65535, map.entries().get(1).address());
    assertEquals(List.of(), messages());
  }

  @Test
  void oneEntryInDoubtHidesNoProblemOfAnother() throws IOException {
    load(
        "project: p\n"
            + "controller:\n"
            + "  inputs:\n"
            + "    a: {}\n"
            + "    b: {type: X}\n"
            + "    c: 3\n"
            + "    d: {type: BOOL, q: 1}\n");
    assertEquals(
        List.of(
            "an input needs `type`",
            "no type named `X`",
            "`c` holds a single value",
            "unknown key `q` in an input"),
        messages());
  }

  @Test
  void aFileThatIsTooLargeIsOneProblem() throws IOException {
    Files.write(folder.resolve("big.yaml"), new byte[3_000_001]);
    load("project: p\ncontroller: big.yaml\n");
    assertEquals(1, messages().size());
    assertTrue(messages().get(0).endsWith("is larger than 3 MB"), messages()::toString);
    assertEquals("project.yaml:2:13", place());
  }

  @Test
  void aNameThatIsNoPathIsOneProblem() throws IOException {
    load("project: p\ncontroller: \"a\\0b\"\n");
    assertEquals(List.of("this cannot be the name of a file"), messages());
  }

  @Test
  void whatIsNotThereOrNotTextIsReportedAndNothingIsRead() throws IOException {
    assertNull(ProjectLoader.read(folder.resolve("none"), problems));
    Files.write(
        folder.resolve("project.yaml"),
        "project: Gl\u00fch\n".getBytes(StandardCharsets.ISO_8859_1));
    assertNull(ProjectLoader.read(folder, problems));
    assertEquals(2, problems.errors());
  }
}
