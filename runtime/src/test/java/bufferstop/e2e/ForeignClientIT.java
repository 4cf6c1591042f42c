package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The hmi map read and written by mbpoll, a client on libmodbus from Debian's packages. Where it is
 * not installed the test is skipped, unless BUFFERSTOP_REQUIRE_CLIENTS is set, as it is in
 * continuous integration.
 */
class ForeignClientIT {
  private static final Duration LONG = Duration.ofSeconds(30);
  private static final String COILS = "0";
  private static final String DISCRETE_INPUTS = "1";
  private static final String INPUT_REGISTERS = "3";
  private static final String HOLDING_REGISTERS = "4";

  @TempDir Path folder;

  @BeforeAll
  static void needsTheClient() {
    boolean there = Path.of("/usr/bin/mbpoll").toFile().canExecute();
    if (!there && System.getenv("BUFFERSTOP_REQUIRE_CLIENTS") != null) {
      fail("mbpoll is not installed");
    }
    assumeTrue(there, "mbpoll is not installed");
  }

  private record Answer(int status, String text) {}

  private static Answer mbpoll(int port, String table, int address, String... more) {
    List<String> words = new ArrayList<>(List.of("/usr/bin/mbpoll", "-m", "tcp", "-1", "-0"));
    words.addAll(List.of("-p", Integer.toString(port), "-a", "1", "-t", table));
    words.addAll(List.of("-r", Integer.toString(address)));
    words.addAll(List.of(more));
    try {
      Process process = new ProcessBuilder(words).redirectErrorStream(true).start();
      String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return new Answer(process.waitFor(), text);
    } catch (IOException | InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  private static boolean reads(int port, String table, int address, int value) {
    String wanted = "(?s).*\\[" + address + "\\]:\\s+" + value + "\\s.*";
    return mbpoll(port, table, address, "-c", "1", "127.0.0.1").text().matches(wanted);
  }

  @Test
  void startsTheTrainAndReadsTheStepsChange() throws IOException {
    Path project = Launched.brickworksOnFreePort(folder);
    try (Launched run = Launched.bufferstop("run", project.toString())) {
      int port = run.port();
      assertTrue(reads(port, DISCRETE_INPUTS, 0, 1), "standby at first");
      assertEquals(0, mbpoll(port, COILS, 2, "127.0.0.1", "1").status(), "reset");
      await().atMost(LONG).until(() -> reads(port, DISCRETE_INPUTS, 1, 1));
      assertEquals(0, mbpoll(port, COILS, 0, "127.0.0.1", "1").status(), "start");
      await().atMost(LONG).until(() -> reads(port, DISCRETE_INPUTS, 6, 1));
      await().atMost(LONG).until(() -> reads(port, DISCRETE_INPUTS, 7, 1));
      assertTrue(reads(port, INPUT_REGISTERS, 0, 0), "no load hauled yet");
    }
  }

  @Test
  void writesATimeAsADoubleWordAndIsRefusedOutOfRange() throws IOException {
    Path project = Launched.brickworksOnFreePort(folder);
    try (Launched run = Launched.bufferstop("run", project.toString())) {
      int port = run.port();
      // two registers at once, as FC 16: 4000 ms is T#4s, inside the range of fill_time
      assertEquals(0, mbpoll(port, HOLDING_REGISTERS, 0, "127.0.0.1", "0", "4000").status());
      assertTrue(reads(port, HOLDING_REGISTERS, 1, 4000));
      // 20000 ms is out of range: exception 04 and nothing written
      Answer refused = mbpoll(port, HOLDING_REGISTERS, 0, "127.0.0.1", "0", "20000");
      assertTrue(refused.text().contains("Slave device or server failure"), refused.text());
      assertTrue(reads(port, HOLDING_REGISTERS, 1, 4000));
      // half a wide value: exception 02
      Answer half = mbpoll(port, HOLDING_REGISTERS, 1, "127.0.0.1", "5000");
      assertTrue(half.text().contains("Illegal data address"), half.text());
    }
  }
}
