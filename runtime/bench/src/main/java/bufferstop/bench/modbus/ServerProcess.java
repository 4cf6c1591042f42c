package bufferstop.bench.modbus;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A server in a process of its own, ended when closed. */
final class ServerProcess implements AutoCloseable {
  private static final Pattern PORT =
      Pattern.compile("^(?:hmi: Modbus TCP on .*:)?(\\d+)(?:,.*)?$");
  private static final double TICKS_PER_SECOND = 100; // of /proc on every Linux of today

  private final String name;
  private final Process process;
  private final BufferedReader out;
  private final int port;

  private ServerProcess(String name, List<String> command) throws IOException {
    this.name = name;
    process = new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    out =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    port = readPort();
  }

  private int readPort() throws IOException {
    for (String line = out.readLine(); line != null; line = out.readLine()) {
      Matcher matcher = PORT.matcher(line);
      if (matcher.matches()) {
        return Integer.parseInt(matcher.group(1));
      }
    }
    throw new IOException(name + " ended before it listened");
  }

  private static List<String> java(String main, String... arguments) {
    List<String> words = new ArrayList<>();
    words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    words.add("-XX:+UseSerialGC");
    words.add("-cp");
    words.add(System.getProperty("java.class.path"));
    words.add(main);
    words.addAll(List.of(arguments));
    return words;
  }

  /** The product itself, running a project. */
  static ServerProcess product(Path project) throws IOException {
    return new ServerProcess("Bufferstop", java("bufferstop.cli.Main", "run", project.toString()));
  }

  static ServerProcess stock() throws IOException {
    return new ServerProcess("stock j2mod", java(StockServer.class.getName()));
  }

  /**
   * A C program of this package's resources, compiled in {@code folder}.
   *
   * @return null, after a line on standard error, when it cannot be compiled here
   */
  static ServerProcess compiled(String name, String source, Path folder, String... libraries)
      throws IOException, InterruptedException {
    Path file = folder.resolve(source);
    try (InputStream in = ServerProcess.class.getResourceAsStream(source)) {
      Files.write(file, in.readAllBytes());
    }
    Path program = folder.resolve(source.replace(".c", ""));
    List<String> command =
        new ArrayList<>(List.of("gcc", "-O2", "-o", program.toString(), file.toString()));
    command.add("-I/usr/include/modbus");
    command.addAll(List.of(libraries));
    try {
      Process compiler = new ProcessBuilder(command).inheritIO().start();
      if (compiler.waitFor() == 0) {
        return new ServerProcess(name, List.of(program.toString()));
      }
    } catch (IOException e) {
      System.err.println("no C compiler: " + e.getMessage());
    }
    System.err.println(name + " is left out: it needs gcc and libmodbus-dev");
    return null;
  }

  String name() {
    return name;
  }

  int port() {
    return port;
  }

  /** Processor time used so far in seconds. */
  double cpuSeconds() throws IOException {
    String stat = Files.readString(Path.of("/proc", Long.toString(process.pid()), "stat"));
    String[] fields = stat.substring(stat.lastIndexOf(')') + 2).split(" ");
    return (Long.parseLong(fields[11]) + Long.parseLong(fields[12])) / TICKS_PER_SECOND;
  }

  /** Ends it as a user would; returns what else it printed. */
  String end() throws IOException, InterruptedException {
    process.toHandle().destroy();
    StringBuilder text = new StringBuilder();
    for (String line = out.readLine(); line != null; line = out.readLine()) {
      text.append(line).append('\n');
    }
    process.waitFor(10, TimeUnit.SECONDS);
    return text.toString();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
