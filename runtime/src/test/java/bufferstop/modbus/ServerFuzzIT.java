package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The fuzzer on the server, for some seconds; {@code scripts/fuzz SECONDS} gives it more. It begins
 * with good frames of every function, and is led by what of the server's code each input reaches.
 */
class ServerFuzzIT {
  private static final String SECONDS =
      System.getenv().getOrDefault("BUFFERSTOP_FUZZ_SECONDS", "15");
  private static final Pattern DONE = Pattern.compile("Done (\\d+) runs");
  private static final int FEWEST_INPUTS = 1000;
  private static final List<String> SEEDS =
      List.of(
          "01 00 00 00 64",
          "02 00 00 00 01",
          "03 00 64 00 04",
          "04 00 00 00 01",
          "05 00 00 FF 00",
          "06 00 05 12 34",
          "0F 00 00 00 0A 02 CD 01",
          "10 00 64 00 04 08 3F F0 00 00 00 00 00 00",
          "16 00 05 00 F2 00 25",
          "17 00 02 00 03 00 05 00 01 02 00 FF",
          "2B 0E 03 00");

  @TempDir Path folder;

  @Test
  void noInputCostsTheGoodClientAnAnswer() throws Exception {
    List<String> words =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
            "com.code_intelligence.jazzer.Jazzer",
            "--target_class=" + ServerFuzz.class.getName(),
            "--instrumentation_includes=bufferstop.modbus.**",
            // this one forbids connections, which is what the target is made of
            "--disabled_hooks=com.code_intelligence.jazzer.sanitizers.ServerSideRequestForgery",
            "-max_total_time=" + SECONDS,
            "-max_len=700",
            "-timeout=20",
            corpus().toString());
    Process process =
        new ProcessBuilder(words).directory(folder.toFile()).redirectErrorStream(true).start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), text);
    Matcher done = DONE.matcher(text);
    assertTrue(done.find(), text);
    int inputs = Integer.parseInt(done.group(1));
    System.out.println("fuzzed with " + inputs + " inputs in " + SECONDS + " s");
    assertTrue(inputs >= FEWEST_INPUTS, inputs + " inputs only");
  }

  private Path corpus() throws IOException {
    Path corpus = Files.createDirectory(folder.resolve("corpus"));
    for (int i = 0; i < SEEDS.size(); i++) {
      byte[] frame = Bench.frame(i, Bench.UNIT, Bench.bytes(SEEDS.get(i)));
      Files.write(corpus.resolve("seed-" + i), frame);
    }
    return corpus;
  }
}
