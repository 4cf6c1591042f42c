package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The console of a live run on a terminal. */
class TerminalIT {
  private static final Duration LONG = Duration.ofSeconds(60);

  @TempDir Path folder;

  private static void awaitOutput(Launched run, String text) {
    await("for " + text).atMost(LONG).until(() -> run.output().contains(text));
  }

  /** A terminal without a size cannot keep a status at its bottom, but a console it has. */
  @ParameterizedTest(name = "size \"{0}\"")
  @ValueSource(strings = {"", "rows 40 cols 120"})
  void theTabulatorCompletesCommandsPlacesNamesAndModes(String size) throws Exception {
    boolean there = Files.isExecutable(Path.of("/usr/bin/script"));
    if (!there && System.getenv("BUFFERSTOP_REQUIRE_CLIENTS") != null) {
      fail("script is not installed");
    }
    assumeTrue(there, "script is not installed");
    Path project = Launched.brickworksOnFreePort(folder);
    Path recording = folder.resolve("run.rec");
    try (Launched run =
        Launched.onTerminal(size, "run", project + "", "--record", recording + "")) {
      awaitOutput(run, "the tabulator completes names");
      run.strike("fau\twi\tshed_b\tope\t\r");
      awaitOutput(run, "done");
      run.strike("qu\t\r");
      assertEquals(0, run.status(), run.output());
    }
    String written = Files.readString(recording);
    assertTrue(written.contains("fault: {wire: shed_beam, mode: open}"), "in the recording");
  }
}
