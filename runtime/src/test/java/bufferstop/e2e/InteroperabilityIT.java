package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;

/**
 * Clients of others, unmodified, read and write every table and type; then a dissector of others
 * reads all that passed. A client that is not installed is skipped, unless
 * BUFFERSTOP_REQUIRE_CLIENTS is set, as it is in continuous integration, which installs them from
 * Debian's and npm's packages.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class InteroperabilityIT {
  private static final Path RESOURCES = Path.of("src/test/resources/interop").toAbsolutePath();
  private static final String VECTORS = RESOURCES.resolve("vectors.txt").toString();
  private static final Path NODE_MODULES = Path.of("target/interop/node_modules").toAbsolutePath();
  private static final String UNIT = "7";

  @TempDir static Path folder;
  private static Launched run;
  private static Wiretap wiretap;

  @BeforeAll
  static void serve() throws IOException {
    run = Launched.bufferstop("run", RESOURCES.toString());
    wiretap = new Wiretap(run.port(), folder.resolve("suite.pcap"));
  }

  @AfterAll
  static void end() throws IOException {
    wiretap.close();
    run.close();
  }

  private static void needs(boolean there, String what) {
    if (!there && System.getenv("BUFFERSTOP_REQUIRE_CLIENTS") != null) {
      fail(what + " is not installed");
    }
    assumeTrue(there, what + " is not installed");
  }

  private static boolean isProgram(String path) {
    return Path.of(path).toFile().canExecute();
  }

  private record Ended(int status, String text) {}

  private static Ended end(Map<String, String> environment, List<String> words)
      throws IOException, InterruptedException {
    ProcessBuilder builder = new ProcessBuilder(words).redirectErrorStream(true);
    builder.environment().putAll(environment);
    Process process = builder.start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Ended(process.waitFor(), text);
  }

  private static void assertAllGood(Map<String, String> environment, String... words)
      throws IOException, InterruptedException {
    List<String> all = new ArrayList<>(List.of(words));
    all.add(Integer.toString(wiretap.port()));
    all.add(VECTORS);
    Ended ended = end(environment, all);
    assertTrue(ended.text.endsWith("all good\n"), ended.text);
    assertEquals(0, ended.status);
  }

  @Test
  @Order(1)
  void libmodbus() throws Exception {
    needs(
        isProgram("/usr/bin/gcc") && Files.exists(Path.of("/usr/include/modbus/modbus.h")),
        "gcc or libmodbus-dev");
    String program = folder.resolve("client").toString();
    String source = RESOURCES.resolve("client.c").toString();
    String[] compiler = {
      "gcc", "-Wall", "-Werror", "-I/usr/include/modbus", "-o", program, source, "-lmodbus"
    };
    Ended compiled = end(Map.of(), List.of(compiler));
    assertEquals(0, compiled.status, compiled.text);
    assertAllGood(Map.of(), program);
  }

  @Test
  @Order(1)
  void pymodbus() throws Exception {
    String python = "/usr/bin/python3";
    boolean there =
        isProgram(python) && end(Map.of(), List.of(python, "-c", "import pymodbus")).status == 0;
    needs(there, "python3-pymodbus");
    assertAllGood(Map.of(), python, RESOURCES.resolve("client.py").toString());
  }

  @Test
  @Order(1)
  void jsmodbus() throws Exception {
    needs(
        isProgram("/usr/bin/node") && Files.isDirectory(NODE_MODULES.resolve("jsmodbus")),
        "node or jsmodbus, which belongs into " + NODE_MODULES);
    assertAllGood(
        Map.of("NODE_PATH", NODE_MODULES.toString()),
        "node",
        RESOURCES.resolve("client.js").toString());
  }

  @Test
  @Order(1)
  void mbpoll() throws Exception {
    needs(isProgram("/usr/bin/mbpoll"), "mbpoll");
    for (String line : Files.readAllLines(Path.of(VECTORS))) {
      String[] parts = line.split(" ");
      List<String> words = new ArrayList<>();
      for (int i = 2; i < parts.length; i++) {
        words.add("0x" + parts[i]);
      }
      assertEquals(0, mbpoll("4:hex", parts[1], words).status, line);
      for (String table : new String[] {"4:hex", "3:hex"}) {
        String read = mbpoll(table, parts[1], words.size()).text;
        for (int i = 0; i < words.size(); i++) {
          int address = Integer.parseInt(parts[1]) + i;
          assertTrue(
              read.matches("(?s).*\\[" + address + "\\]:\\s+" + words.get(i) + "\\s.*"), read);
        }
      }
    }
    assertEquals(0, mbpoll("0", "3", List.of("1", "0", "1")).status);
    for (String table : new String[] {"0", "1"}) {
      String read = mbpoll(table, "3", 3).text;
      assertTrue(read.matches("(?s).*\\[3\\]:\\s+1\\s+\\[4\\]:\\s+0\\s+\\[5\\]:\\s+1\\s.*"), read);
    }
    assertTrue(mbpoll("4", "90", 1).text.contains("Illegal data address"));
  }

  private static List<String> mbpoll(String table, String address) {
    String port = Integer.toString(wiretap.port());
    return new ArrayList<>(
        List.of(
            "mbpoll", "-m", "tcp", "-1", "-0", "-B", "-p", port, "-a", UNIT, "-t", table, "-r",
            address));
  }

  private static Ended mbpoll(String table, String address, int count) throws Exception {
    List<String> words = mbpoll(table, address);
    words.addAll(List.of("-c", Integer.toString(count), "127.0.0.1"));
    return end(Map.of(), words);
  }

  private static Ended mbpoll(String table, String address, List<String> values) throws Exception {
    List<String> words = mbpoll(table, address);
    words.add("127.0.0.1");
    words.addAll(values);
    return end(Map.of(), words);
  }

  @Test
  @Order(2)
  void aDissectorFindsNoFrameMalformed() throws Exception {
    needs(isProgram("/usr/bin/tshark"), "tshark");
    await().atMost(Duration.ofSeconds(10)).until(wiretap::isQuiet);
    String file = folder.resolve("suite.pcap").toString();
    long frames = lines(file, "mbtcp");
    assertTrue(frames > 200, frames + " frames");
    assertEquals(0, lines(file, "_ws.malformed || tcp.analysis.lost_segment"));
    assertEquals(0, lines(file, "tcp.len > 0 && !mbtcp"), "pieces that are no Modbus");
    long questions = lines(file, "mbtcp && tcp.dstport == 502");
    assertEquals(frames, 2 * questions, "an answer for each question");
  }

  private static long lines(String file, String filter) throws Exception {
    List<String> words = List.of("tshark", "-n", "-r", file, "-Y", filter);
    Process process = new ProcessBuilder(words).redirectErrorStream(false).start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor());
    return text.lines().count();
  }
}
