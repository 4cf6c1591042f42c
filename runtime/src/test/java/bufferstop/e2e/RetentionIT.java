package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Retained values over runs that end in order, that are killed, and over damage. */
class RetentionIT {
  private static final Duration LONG = Duration.ofSeconds(60);

  /** What the manual promises, and what a busy machine may need besides to write. */
  private static final long OLDEST_MILLIS = 500 + 2000;

  private static final int LONGEST_LIFE_MILLIS = 5000;

  /** 200 were killed once; a few are enough for every day. */
  private static final int KILLS = Integer.getInteger("bufferstop.kills", 6);

  private static final String PROJECT =
      """
      project: Counters of a test bench
      scan: T#10ms
      controller:
        operator:
          wish: {type: UINT, retain: TRUE, range: [0, 100]}
        internal:
          ticks: {type: UDINT, retain: TRUE}
          twin: {type: UDINT, retain: TRUE}
          flip: {type: BOOL}
          at_start: {type: UDINT}
          twin_at_start: {type: UDINT}
          counted_at_start: {type: UDINT}
        blocks:
          count: {block: START_COUNTER, IN: flip, retain: TRUE}
        logic: |
          IF scan.first THEN
            at_start := ticks;
            twin_at_start := twin;
            counted_at_start := count.CV;
          END_IF;
          ticks := ticks + 1;
          twin := ticks;
          flip := NOT flip;
      modbus:
        hmi:
          listen: 127.0.0.1:0
          unit: 1
          map:
            - {point: at_start, input_register: 0}
            - {point: twin_at_start, input_register: 2}
            - {point: counted_at_start, input_register: 4}
            - {point: ticks, input_register: 6}
            - {point: wish, holding_register: 0}
      """;

  @TempDir Path folder;

  private Path project;

  @BeforeEach
  void write() throws IOException {
    project = Files.createDirectory(folder.resolve("counters"));
    Files.writeString(project.resolve("project.yaml"), PROJECT);
  }

  private Launched run(String... options) {
    List<String> words = new ArrayList<>(List.of("run", project.toString()));
    words.addAll(List.of(options));
    return Launched.bufferstop(words.toArray(String[]::new));
  }

  /** What a client reads in one request. */
  private record Counted(long atStart, long twinAtStart, long countedAtStart, long ticks) {}

  private static Counted read(ModbusTCPMaster client) throws ModbusException {
    InputRegister[] words = client.readInputRegisters(1, 0, 8);
    long[] values = new long[4];
    for (int i = 0; i < values.length; i++) {
      values[i] = (long) words[2 * i].getValue() << 16 | words[2 * i + 1].getValue();
    }
    return new Counted(values[0], values[1], values[2], values[3]);
  }

  private static ModbusTCPMaster client(Launched run) throws Exception {
    ModbusTCPMaster client = new ModbusTCPMaster("127.0.0.1", run.port());
    client.connect();
    await()
        .atMost(LONG)
        .ignoreException(ModbusSlaveException.class) // 04 before the first scan
        .until(() -> read(client).ticks > 0);
    return client;
  }

  /** Ticks that a client read, and when. */
  private record Seen(long nanos, long ticks) {}

  @Test
  void aRunThatIsKilledAtAnyMomentLeavesWhatAClientReadHalfASecondBefore() throws Exception {
    long seed = Long.getLong("bufferstop.seed", 20_261_125L);
    Random random = new Random(seed);
    List<Seen> before = List.of();
    long killed = 0;
    long oldest = 0;
    for (int kill = 0; kill <= KILLS; kill++) {
      String which = "seed " + seed + ", kill " + kill;
      try (Launched run = run()) {
        ModbusTCPMaster client = client(run);
        Counted first = read(client);
        assertFalse(run.output().contains("damaged"), which + ": " + run.output());
        assertEquals(first.atStart, first.twinAtStart, which + ": of two scans");
        assertTrue(
            Math.abs(first.atStart / 2 - first.countedAtStart) <= kill + 1,
            which + ": the block and the point are of two scans: " + first);
        long deadline = killed - OLDEST_MILLIS * 1_000_000;
        for (Seen seen : before) {
          if (seen.nanos <= deadline) {
            assertTrue(first.atStart >= seen.ticks, which + ": " + first + " after " + seen);
          }
          oldest = seen.ticks > first.atStart ? Math.max(oldest, killed - seen.nanos) : oldest;
        }
        List<Seen> now = new ArrayList<>();
        long end = System.nanoTime() + random.nextInt(LONGEST_LIFE_MILLIS) * 1_000_000L;
        while (System.nanoTime() < end) {
          now.add(new Seen(System.nanoTime(), read(client).ticks));
        }
        killed = System.nanoTime();
        run.kill();
        client.disconnect();
        before = now;
      }
    }
    System.out.printf(
        "retained values: %d kills, the oldest that was lost was read %d ms before its kill%n",
        KILLS, oldest / 1_000_000);
  }

  @Test
  void aRunThatEndsInOrderKeepsEverythingAndAColdStartNothing() throws Exception {
    try (Launched run = run()) {
      ModbusTCPMaster client = client(run);
      client.writeSingleRegister(1, 0, new SimpleRegister(42));
      client.disconnect();
      run.terminate();
      assertEquals(0, run.status(), run.output());
      assertTrue(run.output().contains("retained values: none kept yet, they go to "));
    }
    try (Launched run = run()) {
      ModbusTCPMaster client = client(run);
      assertEquals(42, client.readMultipleRegisters(1, 0, 1)[0].getValue());
      client.disconnect();
      run.terminate();
      assertEquals(0, run.status(), run.output());
      assertTrue(run.output().contains("retained values: 4 brought back from "), run.output());
    }
    try (Launched run = run("--cold")) {
      ModbusTCPMaster client = client(run);
      assertEquals(0, client.readMultipleRegisters(1, 0, 1)[0].getValue());
      client.disconnect();
      run.terminate();
      assertEquals(0, run.status(), run.output());
      assertTrue(run.output().contains("cold start: nothing is brought back"), run.output());
    }
    try (Launched run = run()) {
      ModbusTCPMaster client = client(run);
      assertEquals(0, client.readMultipleRegisters(1, 0, 1)[0].getValue());
      client.disconnect();
    }
  }

  @Test
  void aChangedProjectKeepsWhatStillFitsAndSaysWhatNot() throws Exception {
    ended(0, run("--for", "T#200ms"));
    String changed =
        PROJECT
            .replace("twin: {type: UDINT, retain: TRUE}", "twin: {type: UDINT}")
            .replace("START_COUNTER, IN: flip", "CTU, CU: flip, PV: 9")
            .replace("counted_at_start := count.CV", "counted_at_start := 0");
    Files.writeString(project.resolve("project.yaml"), changed);
    String said = ended(0, run("--for", "T#200ms"));
    assertTrue(said.contains("retained values: 2 brought back from "), said);
    assertTrue(said.contains("`twin` was retained, but nothing of that name is any more"), said);
    assertTrue(
        said.contains("`count` was retained, as START_COUNTER, and is CTU now: it starts anew"),
        said);
  }

  @Test
  void aDamagedFileIsKeptAsideAndTheStateBeforeIsTaken() throws Exception {
    ended(0, run("--for", "T#200ms"));
    ended(0, run("--for", "T#200ms"));
    Path file = project.resolve("state/retained");
    Files.writeString(file, Files.readString(file).replace("ticks UDINT", "ticks UDINt"));
    String said = ended(0, run("--for", "T#200ms"));
    assertTrue(said.contains("retained is damaged; it is kept as retained.damaged-1"), said);
    assertTrue(said.contains("retained values: 4 brought back from "), said);
    assertTrue(Files.exists(project.resolve("state/retained.damaged-1")));
  }

  @Test
  void aFolderThatCannotBeHadEndsTheRunBeforeItBeginsAndSaysHowToMendIt() throws Exception {
    Files.writeString(project.resolve("state"), "a file where the folder should be");
    String said = ended(3, run("--for", "T#200ms"));
    assertTrue(said.contains("retained values cannot be kept in "), said);
    assertTrue(said.contains("name a folder that can be written with --state DIR"), said);
    assertFalse(said.contains("\tat "), said);
    Path other = folder.resolve("elsewhere");
    ended(0, run("--for", "T#200ms", "--state", other.toString()));
    assertTrue(Files.exists(other.resolve("retained")));
    try (Launched first = run("--state", other.toString())) {
      first.port();
      String second = ended(3, run("--for", "T#200ms", "--state", other.toString()));
      assertTrue(second.contains("another run keeps its values there"), second);
    }
  }

  /** Writing to /dev/full fails as a disk does that is full. */
  @Test
  void aFullDiskIsSaidAndTheRunGoesOn() throws Exception {
    Path file = project.resolve("state/retained");
    Path fresh = project.resolve("state/retained.new");
    try (Launched run = run()) {
      ModbusTCPMaster client = client(run);
      await().atMost(LONG).until(() -> Files.exists(file));
      await()
          .atMost(LONG)
          .ignoreExceptions() // a save may be under way
          .until(() -> Files.isSymbolicLink(Files.createSymbolicLink(fresh, Path.of("/dev/full"))));
      await().atMost(LONG).until(() -> run.output().contains("cannot be saved: "));
      long ticks = read(client).ticks;
      await().atMost(LONG).until(() -> read(client).ticks > ticks + 100);
      assertTrue(run.output().contains("No space left on device"), run.output());
      assertEquals(2, run.output().split("cannot be saved: ").length, run.output());
      Files.delete(fresh);
      await().atMost(LONG).until(() -> run.output().contains("retained values are saved again"));
      client.disconnect();
      run.terminate();
      assertEquals(0, run.status(), run.output());
    }
  }

  @Test
  void aRecordingOfAWarmStartIsReplayedFromWhereItBegan() throws Exception {
    ended(0, run("--for", "T#500ms"));
    String recording = folder.resolve("run.rec").toString();
    String live = ended(0, run("--for", "T#500ms", "--record", recording));
    assertTrue(live.contains("retained values: 4 brought back from "), live);
    String replayed =
        ended(
            0, Launched.bufferstop("replay", project.toString(), recording, "--show", "at_start"));
    assertTrue(replayed.contains("the same as was recorded"), replayed);
    assertTrue(replayed.matches("(?s).*at_start = [1-9].*"), replayed);
  }

  @Test
  void aProjectThatRetainsNothingLeavesNothing() throws Exception {
    Files.writeString(project.resolve("project.yaml"), PROJECT.replace(", retain: TRUE", ""));
    String said = ended(0, run("--for", "T#200ms"));
    assertFalse(said.contains("retained"), said);
    assertFalse(Files.exists(project.resolve("state")));
  }

  private static String ended(int status, Launched command) {
    try (command) {
      assertEquals(status, command.status(), command.output());
      return command.output();
    }
  }
}
