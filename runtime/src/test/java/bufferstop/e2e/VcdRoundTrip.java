package bufferstop.e2e;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;

/**
 * A value change dump through vcd2fst and fst2vcd of Debian's gtkwave, which end with 0 whatever
 * they read, so what comes back is compared value by value. Where they are missing the test is
 * skipped, unless BUFFERSTOP_REQUIRE_CLIENTS is set, as it is in continuous integration.
 */
final class VcdRoundTrip {
  private VcdRoundTrip() {}

  /** How many values were the same; all of them, both ways. */
  static long compare(Path vcd) throws IOException, InterruptedException {
    Map<String, TreeMap<Long, String>> written = Vcd.read(Files.readString(vcd)).changes();
    Map<String, TreeMap<Long, String>> read = through(vcd);
    assertEquals(written.keySet(), read.keySet());
    long compared = 0;
    for (String name : written.keySet()) {
      assertEquals(written.get(name).keySet(), read.get(name).keySet(), name);
      for (long time : written.get(name).keySet()) {
        same(written.get(name).get(time), read.get(name).get(time), name + " at " + time);
        compared++;
      }
    }
    return compared;
  }

  /** What the tools make of it. */
  static Map<String, TreeMap<Long, String>> through(Path vcd)
      throws IOException, InterruptedException {
    boolean there = Files.isExecutable(Path.of("/usr/bin/vcd2fst"));
    if (!there && System.getenv("BUFFERSTOP_REQUIRE_CLIENTS") != null) {
      fail("vcd2fst is not installed");
    }
    assumeTrue(there, "vcd2fst is not installed");
    Path fst = vcd.resolveSibling(vcd.getFileName() + ".fst");
    run("/usr/bin/vcd2fst", vcd.toString(), fst.toString());
    return Vcd.read(run("/usr/bin/fst2vcd", fst.toString())).changes();
  }

  /** The tool prints reals with 16 digits. */
  private static void same(String written, String read, String what) {
    if (written.matches("\\d+") && read.matches("\\d+")) {
      assertEquals(written, read, what);
    } else {
      double value = Double.parseDouble(written);
      assertEquals(value, Double.parseDouble(read), Math.abs(value) * 1e-15, what);
    }
  }

  private static String run(String... words) throws IOException, InterruptedException {
    Process process = new ProcessBuilder(words).redirectErrorStream(true).start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), output);
    return output;
  }
}
