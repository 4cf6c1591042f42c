package bufferstop.cli;

import bufferstop.retention.RetainedValue;
import bufferstop.retention.Retention;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;

/** The folder in which {@code run} keeps what outlives it. */
final class StateFolder implements AutoCloseable {
  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss").withZone(ZoneId.systemDefault());

  private final Path folder;
  private final Retention retention; // null when nothing is retained
  private List<RetainedValue> broughtBack = List.of();

  private StateFolder(Path folder, Retention retention) {
    this.folder = folder;
    this.retention = retention;
  }

  /**
   * Opens it; not even a folder is made for a project that retains nothing.
   *
   * @param given null for the project's own
   * @param err takes what goes wrong while the run goes on
   * @throws IOException when nothing can be kept there; the message says why and what to do
   */
  static StateFolder open(Rig rig, Path given, PrintWriter err) throws IOException {
    Path folder = given == null ? rig.project().folder().resolve("state") : given;
    if (rig.retained().isEmpty()) {
      return new StateFolder(folder, null);
    }
    try {
      return new StateFolder(
          folder,
          new Retention(
              folder,
              rig.retained(),
              System::currentTimeMillis,
              line -> {
                err.println("bufferstop: " + line);
                err.flush();
              }));
    } catch (IOException e) {
      throw new IOException(
          "retained values cannot be kept in "
              + folder
              + ": "
              + Said.plainly(e)
              + "; name a folder that can be written with --state DIR",
          e);
    }
  }

  /**
   * Brings back what was kept, before the first scan.
   *
   * @param cold leaves it
   * @return what came back and what did not, a line each
   */
  List<String> bringBack(Rig rig, boolean cold) throws IOException {
    if (retention == null) {
      return List.of();
    }
    List<String> said = new ArrayList<>();
    Retention.Found found = retention.load(said);
    String first;
    if (cold) {
      first = "cold start: nothing is brought back, " + folder + " begins anew";
    } else if (found.atMillis() == 0) {
      first = "retained values: none kept yet, they go to " + folder;
    } else {
      broughtBack = found.values();
      int taken = rig.retained().restore(rig.engine().cells(), found.values(), said);
      String moment = MOMENT.format(Instant.ofEpochMilli(found.atMillis()));
      first = "retained values: " + taken + " brought back from " + folder + ", kept " + moment;
    }
    List<String> lines = new ArrayList<>(List.of(first));
    said.forEach(line -> lines.add("  " + line));
    return lines;
  }

  /** What was brought back, with what no longer fitted. */
  List<RetainedValue> broughtBack() {
    return broughtBack;
  }

  /** Keeps them from now on. */
  void begin(Rig rig) {
    if (retention != null) {
      retention.begin(rig.snapshots(), Retention.EVERY_MICROS);
    }
  }

  /** Keeps them as the run left them; may be called again. */
  @Override
  public void close() {
    if (retention != null) {
      retention.close();
    }
  }
}
