package bufferstop.cli;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** Options of what runs in real time. */
final class LiveOptions {
  private static final int BUFFER = 1 << 16;

  @Option(
      names = "--for",
      paramLabel = "TIME",
      description = "ends the run: T#30s, or 30s for short")
  private String duration;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "seed of the plants")
  private long seed;

  @Option(
      names = "--trace",
      paramLabel = "FILE",
      description = "write the full trace here while the run goes on")
  private Path traceFile;

  @Option(
      names = "--console",
      description =
          "take commands from standard input even where it is no terminal; on a terminal they are"
              + " taken anyway")
  private boolean console;

  long seed() {
    return seed;
  }

  /** Whether somebody may type commands. */
  boolean commands() {
    return console || System.console() != null;
  }

  /** The file of the trace, buffered; null without one. */
  OutputStream trace() throws IOException {
    return traceFile == null
        ? null
        : new BufferedOutputStream(Files.newOutputStream(traceFile), BUFFER);
  }

  /** How long it runs, microseconds; 0 for no end. */
  long duration(CommandSpec spec) {
    return duration == null ? 0 : Math.max(1, CommandTime.micros(duration, 0, spec));
  }
}
