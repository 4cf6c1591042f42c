package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A live run recorded, faults thrown on its panel, and the same run again at the desk. */
class RecordReplayIT {
  private static final Duration LONG = Duration.ofSeconds(60);
  private static final int PANEL = 100;
  private static final int START = 0; // coils of unit 1
  private static final int RESET = 2;
  private static final int UNLOCATED = 1; // discrete inputs of unit 1
  private static final int TRIPPED = 17;
  private static final Pattern TRACE = Pattern.compile("trace ([0-9a-f]{64})");

  @TempDir Path folder;

  private Path project() throws IOException {
    Path project = Launched.brickworksOnFreePort(folder);
    Path main = project.resolve("project.yaml");
    String text = Files.readString(main);
    Files.writeString(main, text.replace("unit: 1\n", "unit: 1\n    fault_panel: 100\n"));
    return project;
  }

  /** The coil of a fault, as {@code points} lists it. */
  private static int coil(Path project, String name) {
    try (Launched points = Launched.bufferstop("points", project.toString(), "--format", "csv")) {
      assertEquals(0, points.status(), points.output());
      for (String line : points.output().split("\n")) {
        String[] fields = line.split(",");
        if (fields[0].equals(name) && fields[5].equals("coil")) {
          assertEquals(Integer.toString(PANEL), fields[4], line);
          return Integer.parseInt(fields[6]);
        }
      }
    }
    throw new AssertionError("no coil " + name);
  }

  private static boolean reads(ModbusTCPMaster client, int unit, int input) throws ModbusException {
    return client.readInputDiscretes(unit, input, 1).getBit(0);
  }

  private static String trace(String output) {
    Matcher matcher = TRACE.matcher(output);
    assertTrue(matcher.find(), output);
    return matcher.group(1);
  }

  private static String ended(int status, String... arguments) {
    try (Launched command = Launched.bufferstop(arguments)) {
      assertEquals(status, command.status(), command.output());
      return command.output();
    }
  }

  @Test
  void whatAClientThrewOnThePanelIsReplayedAndSavedAsAScenario() throws Exception {
    Path project = project();
    String recording = folder.resolve("run.rec").toString();
    int dead = coil(project, "faults.wire.towards_pit.open");
    String live;
    try (Launched run = Launched.bufferstop("run", project + "", "--record", recording)) {
      ModbusTCPMaster client = new ModbusTCPMaster("127.0.0.1", run.port());
      client.connect();
      try {
        assertFalse(reads(client, PANEL, dead));
        client.writeCoil(PANEL, dead, true);
        await().atMost(LONG).until(() -> reads(client, PANEL, dead));
        client.writeCoil(1, RESET, true);
        await().atMost(LONG).until(() -> reads(client, 1, UNLOCATED));
        client.writeCoil(1, START, true);
        await().atMost(LONG).until(() -> reads(client, 1, TRIPPED));
      } finally {
        client.disconnect();
      }
      run.terminate();
      assertEquals(0, run.status(), run.output());
      live = trace(run.output());
    }
    String scenario = folder.resolve("saved.yaml").toString();
    String replayed =
        ended(0, "replay", project + "", recording, "--save", scenario, "--for", "20s");
    assertEquals(live, trace(replayed));
    assertTrue(replayed.endsWith("the same as was recorded"), replayed);
    String saved = Files.readString(Path.of(scenario));
    assertTrue(saved.contains("fault: {wire: towards_pit, mode: open}"), saved);
    ended(0, "test", "configs/brickworks", scenario);
    String naive = ended(1, "test", "configs/brickworks-naive", scenario);
    assertTrue(naive.contains("failed: never hazards.struck_wall"), naive);
  }

  @Test
  void aRecordingCutShortIsReplayedUpToTheCut() throws Exception {
    Path project = project();
    Path recording = folder.resolve("cut.rec");
    try (Launched run = Launched.bufferstop("run", project + "", "--record", recording + "")) {
      run.port();
      await().atMost(LONG).until(() -> Files.readString(recording).split("\\{mark").length > 5);
      run.kill();
    }
    // whatever the last line had become
    Files.writeString(recording, Files.readString(recording) + "{mark: 99999999, cr");
    String replayed = ended(0, "replay", project + "", recording + "");
    assertTrue(replayed.contains("the recording was cut off"), replayed);
    assertTrue(replayed.endsWith("the same as was recorded up to here"), replayed);
    String damaged = Files.readString(recording).replaceFirst("crc: \\d+", "crc: 1");
    Files.writeString(recording, damaged);
    String parted = ended(1, "replay", project + "", recording + "");
    assertTrue(parted.contains("this is not the run that was recorded"), parted);
  }

  @Test
  void aRecordingOfAnotherProjectIsRefusedWithTheDifferenceNamed() throws Exception {
    Path project = project();
    Path recording = folder.resolve("other.rec");
    ended(0, "run", project + "", "--record", recording + "", "--for", "T#200ms");
    Path controller = project.resolve("controller.yaml");
    String text = Files.readString(controller);
    Files.writeString(controller, text.replace("within: T#4s500ms", "within: T#4s600ms"));
    String refused = ended(2, "replay", project + "", recording + "");
    assertTrue(refused.contains("controller.yaml:"), refused);
    assertTrue(refused.contains("error: this is not the project that was recorded"), refused);
    assertTrue(refused.contains("within: T#4s500ms"), refused);
    Files.writeString(controller, text);
    String whole = ended(0, "replay", project + "", recording + "", "--until", "100ms");
    assertTrue(whole.contains("at T#100ms"), whole);
    assertTrue(whole.contains("haul.standby.X"), whole);
  }

  @Test
  void theConsoleThrowsFaultsForcesAndTellsWhatIsOn() throws Exception {
    Path project = project();
    Path recording = folder.resolve("console.rec");
    try (Launched run =
        Launched.typing("run", project + "", "--console", "--record", recording + "")) {
      run.port();
      run.type("fault wire shed_beam open");
      run.type("force horn TRUE");
      run.type("force hron TRUE");
      run.type("fault wire sed_beam open");
      await().atMost(LONG).until(() -> run.output().contains("did you mean `shed_beam`?"));
      assertTrue(run.output().contains("did you mean `horn`?"), run.output());
      await()
          .atMost(LONG)
          .until(
              () -> {
                run.type("show alarms.forces_active.active");
                return run.output().contains("alarms.forces_active.active = TRUE");
              });
      run.type("active");
      await().atMost(LONG).until(() -> run.output().contains("\nforce horn TRUE"));
      assertTrue(run.output().contains("fault wire shed_beam open"), run.output());
      run.type("unforce all");
      run.type("clear wire shed_beam");
      await()
          .atMost(LONG)
          .until(
              () -> {
                run.type("active");
                return run.output().contains("nothing is on and nothing forced");
              });
      run.type("quit");
      assertEquals(0, run.status(), run.output());
    }
    String written = Files.readString(recording);
    assertTrue(written.contains("fault: {wire: shed_beam, mode: open}"), "in the recording");
    assertTrue(written.contains("force: {horn: TRUE}"), "in the recording");
    assertTrue(written.contains("unforce: all"), "in the recording");
    String replayed = ended(0, "replay", project + "", recording + "");
    assertTrue(replayed.endsWith("the same as was recorded"), replayed);
  }
}
