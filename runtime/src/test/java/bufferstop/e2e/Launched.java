package bufferstop.e2e;

import static org.awaitility.Awaitility.await;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A process started through the real launcher, from the top of the checkout; ended when closed. */
final class Launched implements AutoCloseable {
  static final Path TOP = Path.of("..").toAbsolutePath().normalize();
  private static final Duration LONGEST = Duration.ofSeconds(60);
  private static final Pattern PORT = Pattern.compile("Modbus TCP on 127\\.0\\.0\\.1:(\\d+)");

  private final Process process;
  private final List<String> lines = new ArrayList<>();
  private final Thread reader;

  private Launched(Process process) {
    this.process = process;
    reader = new Thread(this::read, "output of " + process.pid());
    reader.start();
  }

  /** Starts {@code scripts/bufferstop} with these arguments; its outputs come as one. */
  static Launched bufferstop(String... arguments) {
    return command(List.of(), "scripts/bufferstop", arguments);
  }

  /** The same with further options for Java. */
  static Launched bufferstop(List<String> javaOptions, String... arguments) {
    return command(javaOptions, "scripts/bufferstop", arguments);
  }

  /** The same, with a standard input to {@link #type} into. */
  static Launched typing(String... arguments) {
    return command(null, "scripts/bufferstop", arguments);
  }

  /**
   * The same on a terminal that {@code script} of util-linux makes, xterm's kind.
   *
   * @param size as {@code stty} sets it, may be empty
   */
  static Launched onTerminal(String size, String... arguments) {
    String words = TOP.resolve("scripts/bufferstop") + " " + String.join(" ", arguments);
    String resized = size.isEmpty() ? words : "stty " + size + "; " + words;
    return new Launched(
        started(
            new ProcessBuilder(
                "script", "-qec", "TERM=xterm; export TERM; " + resized, "/dev/null")));
  }

  /** One line on its standard input. */
  void type(String line) {
    strike(line + "\n");
  }

  /** Some keys on its standard input. */
  void strike(String keys) {
    try {
      process.getOutputStream().write(keys.getBytes(StandardCharsets.UTF_8));
      process.getOutputStream().flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Launched command(List<String> javaOptions, String program, String... arguments) {
    List<String> words = new ArrayList<>(List.of(TOP.resolve(program).toString()));
    words.addAll(Arrays.asList(arguments));
    ProcessBuilder builder = new ProcessBuilder(words).directory(TOP.toFile());
    builder.redirectErrorStream(true);
    if (javaOptions != null) {
      builder.redirectInput(ProcessBuilder.Redirect.from(Path.of("/dev/null").toFile()));
    }
    if (javaOptions != null && !javaOptions.isEmpty()) {
      builder.environment().put("BUFFERSTOP_JAVA_OPTIONS", String.join(" ", javaOptions));
    }
    return new Launched(started(builder));
  }

  private static Process started(ProcessBuilder builder) {
    try {
      return builder.start();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void read() {
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        synchronized (lines) {
          lines.add(line);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Everything printed so far. */
  String output() {
    synchronized (lines) {
      return String.join("\n", lines);
    }
  }

  /** Waits for the end; returns the exit status. */
  int status() {
    try {
      if (!process.waitFor(LONGEST.toSeconds(), TimeUnit.SECONDS)) {
        throw new AssertionError("still running after " + LONGEST + ":\n" + output());
      }
      reader.join();
      return process.exitValue();
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
  }

  /** Waits until {@code run} has said where it listens; returns the port. */
  int port() {
    await().atMost(LONGEST).until(() -> PORT.matcher(output()).find() || !process.isAlive());
    Matcher matcher = PORT.matcher(output());
    if (!matcher.find()) {
      throw new AssertionError("it does not listen:\n" + output());
    }
    return Integer.parseInt(matcher.group(1));
  }

  /** Sends SIGTERM; its output can still be read, which {@link Process#destroy} would prevent. */
  void terminate() {
    process.toHandle().destroy();
  }

  /** Ends it as kill -9 does, and waits for that. */
  void kill() {
    process.toHandle().destroyForcibly();
    status();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }

  /** A copy of the brickworks in {@code folder} that listens on a port the system chooses. */
  static Path brickworksOnFreePort(Path folder) throws IOException {
    Path project = folder.resolve("brickworks");
    Path original = TOP.resolve("configs/brickworks");
    try (var files = Files.walk(original)) {
      for (Path file : (Iterable<Path>) files::iterator) {
        Path copy = project.resolve(original.relativize(file).toString());
        if (Files.isDirectory(file)) {
          Files.createDirectories(copy);
        } else {
          Files.copy(file, copy);
        }
      }
    }
    Path main = project.resolve("project.yaml");
    String text = Files.readString(main);
    Files.writeString(main, text.replace("127.0.0.1:1502", "127.0.0.1:0"));
    return project;
  }
}
