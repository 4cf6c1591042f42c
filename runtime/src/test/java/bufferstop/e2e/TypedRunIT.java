package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Csv;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import java.io.IOException;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Texts, enumerations, bit strings and arrays: written live, recorded, replayed, exported. */
class TypedRunIT {
  private static final Duration LONG = Duration.ofSeconds(60);
  private static final String CUSTOMER = "O'Hara, {$1}: ü";

  private static final String PROJECT =
      """
      project: Wheel works
      controller:
        types:
          mode: [off, hand, automatic]
        inputs:
          beam: {type: BOOL}
        operator:
          wanted: {type: mode}
          flags: {type: LWORD, initial: 16#F0}
          amount: {type: "ARRAY[1..3] OF REAL", initial: [1.0, 2.0, 3.0]}
          customer: {type: "STRING[20]", initial: nobody}
          done: {type: BOOL}
        internal:
          now: {type: mode}
          label: {type: "STRING[30]"}
        logic: |
          now := wanted;
          label := CONCAT('for ', customer);
      modbus:
        hmi:
          listen: 127.0.0.1:0
          unit: 1
          fault_panel: 100
          map:
            - {point: customer, holding_register: 0}
            - {point: wanted, holding_register: 10}
            - {point: flags, holding_register: 11}
            - {point: amount, holding_register: 15}
            - {point: done, coil: 0}
      """;

  @TempDir static Path folder;

  private static String project;
  private static String recording;
  private static String trace;
  private static String live;

  private static Register[] words(int... values) {
    Register[] words = new Register[values.length];
    for (int i = 0; i < values.length; i++) {
      words[i] = new SimpleRegister(values[i]);
    }
    return words;
  }

  /** The table's text as a client sends it: two bytes a register, zeros behind. */
  private static Register[] text(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
    int[] words = new int[10];
    for (int i = 0; i < bytes.length; i++) {
      words[i / 2] |= (bytes[i] & 0xFF) << (i % 2 == 0 ? 8 : 0);
    }
    return words(words);
  }

  private static String ended(int status, String... arguments) {
    try (Launched command = Launched.bufferstop(arguments)) {
      assertEquals(status, command.status(), command.output());
      return command.output();
    }
  }

  @BeforeAll
  static void aClientWritesWhileTheRunIsRecorded() throws Exception {
    project = folder.resolve("works").toString();
    Files.createDirectories(Path.of(project));
    Files.writeString(Path.of(project).resolve("project.yaml"), PROJECT);
    recording = folder.resolve("run.rec").toString();
    trace = folder.resolve("run.bstrace").toString();
    try (Launched run =
        Launched.typing("run", project, "--console", "--record", recording, "--trace", trace)) {
      ModbusTCPMaster client = new ModbusTCPMaster("127.0.0.1", run.port());
      client.connect();
      await()
          .atMost(LONG)
          .ignoreException(ModbusSlaveException.class) // 04 before the first scan
          .until(() -> client.readMultipleRegisters(1, 10, 1).length == 1);
      client.writeMultipleRegisters(1, 0, text(CUSTOMER));
      client.writeSingleRegister(1, 10, new SimpleRegister(2));
      client.writeMultipleRegisters(1, 11, words(0x8000, 0, 0, 0xF));
      client.writeMultipleRegisters(1, 17, words(0x40B0, 0)); // 5.5 to amount[2]
      client.writeMultipleRegisters(1, 0, text(""));
      client.writeMultipleRegisters(1, 0, text("Mill"));
      client.disconnect();
      run.type("force beam TRUE");
      run.type("active");
      await().atMost(LONG).until(() -> run.output().contains("force beam TRUE"));
      run.type("write customer " + CUSTOMER.replace("'", "$'").replace("{$1}", "{$$1}"));
      run.type("write done TRUE");
      await()
          .atMost(LONG)
          .until(
              () -> {
                run.type("show done");
                return run.output().contains("done = TRUE");
              });
      run.type("show customer");
      run.type("show now");
      run.type("quit");
      assertEquals(0, run.status(), run.output());
      live = run.output();
    }
  }

  @Test
  void theConsoleShowsThemAsAPersonWritesThem() {
    assertTrue(live.contains("customer = 'O$'Hara, {$$1}: ü'"), live);
    assertTrue(live.contains("now = automatic"), live);
  }

  @Test
  void theRecordingIsReplayedToTheSameTrace() throws IOException {
    String written = Files.readString(Path.of(recording));
    assertTrue(written.contains("write: {wanted: automatic}"), "in the recording");
    assertTrue(written.contains("write: {\"amount[2]\": 5.5}"), "in the recording");
    assertTrue(written.contains("write: {customer: \"'Mill'\"}"), "in the recording");
    String replayed = ended(0, "replay", project, recording, "--show", "label", "--show", "flags");
    assertTrue(replayed.contains("the same as was recorded"), replayed);
    assertTrue(replayed.contains("label = 'for O$'Hara, {$$1}: ü'"), replayed);
    assertTrue(replayed.contains("flags = 16#800000000000000F"), replayed);
  }

  @Test
  void theRecordingSavedAsAScenarioIsJudged() {
    String saved = folder.resolve("saved.yaml").toString();
    ended(
        0,
        "replay",
        project,
        recording,
        "--save",
        saved,
        "--expect",
        "at_end: \"customer = 'O$'Hara, {$$1}: ü' AND now = automatic AND beam\"");
    ended(0, "test", project, saved);
  }

  @Test
  void theTraceAnswersByNameAndText() {
    String changes = ended(0, "trace", trace, "--changes", "customer", "--changes", "wanted");
    assertTrue(changes.contains("  customer = 'Mill'"), changes);
    assertTrue(changes.contains("  wanted = automatic"), changes);
    String value = ended(0, "trace", trace, "--value", "amount[2]", "--value", "beam");
    assertTrue(value.startsWith("amount[2] = 5.5 since "), value);
    assertTrue(value.contains("\nbeam = TRUE since "), value);
  }

  private static final List<String> NAMES =
      List.of("customer", "wanted", "flags", "amount[2]", "beam", "done");

  private static String csv(String name) throws IOException {
    Path csv = folder.resolve(name);
    String points = String.join(",", NAMES);
    ended(0, "trace", trace, "--csv", csv.toString(), "--on-change", "--points", points);
    return Files.readString(csv);
  }

  @Test
  void aStoredRunIsComparedInEveryType() throws IOException {
    String saved = folder.resolve("golden.yaml").toString();
    ended(0, "replay", project, recording, "--save", saved, "--expect", "golden: golden.csv");
    String stored = csv("golden.csv");
    ended(0, "test", project, saved);
    for (String change :
        List.of("Mill,>Till,", ",automatic,>,hand,", ",9223372036854775823,>,16,", ",5.5,>,5.6,")) {
      String[] pair = change.split(">");
      assertTrue(stored.contains(pair[0]), change + stored);
      Files.writeString(folder.resolve("golden.csv"), stored.replace(pair[0], pair[1]));
      ended(1, "test", project, saved);
    }
  }

  /** What a row of the table is in a register of a value change dump. */
  private static String bits(String name, String field) {
    return switch (name) {
      case "customer" -> new BigInteger(1, field.getBytes(StandardCharsets.ISO_8859_1)).toString();
      case "wanted" -> String.valueOf(List.of("off", "hand", "automatic").indexOf(field));
      default -> field;
    };
  }

  @Test
  void anotherReaderOfValueChangeDumpsFindsWhatTheTableHolds() throws Exception {
    Path vcd = folder.resolve("types.vcd");
    ended(0, "trace", trace, "--vcd", vcd.toString());
    assertTrue(VcdRoundTrip.compare(vcd) > 20, "too few values");
    Map<String, TreeMap<Long, String>> read = VcdRoundTrip.through(vcd);
    List<List<String>> rows = Csv.read(csv("types.csv"));
    for (int c = 0; c < NAMES.size(); c++) {
      String name = NAMES.get(c);
      TreeMap<Long, String> expected = new TreeMap<>();
      List<String> last = new ArrayList<>(List.of("none"));
      for (List<String> row : rows.subList(1, rows.size())) {
        String field = bits(name, row.get(c + 1));
        if (!field.equals(last.get(0))) {
          expected.put(Math.round(Double.parseDouble(row.get(0)) * 1000), field);
        }
        last.set(0, field);
      }
      TreeMap<Long, String> found = read.get("run." + (name.contains("[") ? "\\" : "") + name);
      assertTrue(found != null, () -> name + " of " + read.keySet());
      assertEquals(expected.keySet(), found.keySet(), name);
      for (long time : expected.keySet()) {
        double value = Double.parseDouble(expected.get(time));
        assertEquals(value, Double.parseDouble(found.get(time)), name + " at " + time);
      }
    }
  }
}
