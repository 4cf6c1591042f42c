package bufferstop.rig;

import bufferstop.model.Project;
import bufferstop.retention.RetainedValue;
import bufferstop.scenario.DeedText;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicLongArray;
import java.util.concurrent.locks.LockSupport;

/**
 * Writes a recording while a run goes on: a line for each thing, each a YAML mapping in braces. The
 * scan thread hands over and never waits; a thread of its own writes and flushes several times a
 * second, so that a process that is killed leaves all but the last moment. A line that was cut off
 * is the last one and has no end.
 *
 * <pre>
 * {recording: 1, project: NAME, sha256: …, version: …, seed: N, io: plant or none}
 * {source: FILE, text: "…"}          each file of the project
 * {retained: "NAME TYPE BITS"}       each thing that was brought back before the first scan
 * {before: PERIOD, DEED}             a deed as a scenario writes it, done when PERIOD was due
 * {mark: PERIOD, crc: N}             CRC-32C of the trace after the scan of that period
 * {end: PERIOD, sha256: …}           of the whole trace
 * </pre>
 */
final class RecordingWriter implements AutoCloseable {
  private static final long PAUSE_NANOS = 100_000_000;
  private static final int MARKS = 256; // a power of two; two numbers each

  private final Writer out;
  private final Queue<String> lines = new ConcurrentLinkedQueue<>();
  private final AtomicLongArray marks = new AtomicLongArray(2 * MARKS);
  private volatile long marksGiven;
  private long marksWritten;
  private volatile IOException failure;
  private volatile boolean closing;
  private final Thread thread = new Thread(this::write, "recording");

  /**
   * Begins a recording.
   *
   * @throws UncheckedIOException when the file cannot be written
   */
  RecordingWriter(
      Path file,
      Project project,
      String version,
      long seed,
      boolean withPlant,
      List<RetainedValue> retained) {
    try {
      out = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
      out.write(
          "{recording: 1, project: %s, sha256: %s, version: %s, seed: %d, io: %s}\n"
              .formatted(
                  DeedText.quoted(project.name()),
                  project.sha256(),
                  DeedText.quoted(version),
                  seed,
                  withPlant ? "plant" : "none"));
      for (Project.Source source : project.sources()) {
        out.write(
            "{source: "
                + DeedText.quoted(source.file())
                + ", text: "
                + DeedText.quoted(source.text())
                + "}\n");
      }
      for (RetainedValue value : retained) {
        out.write("{retained: " + DeedText.quoted(value.text()) + "}\n");
      }
      out.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    thread.setDaemon(true);
    thread.start();
  }

  /**
   * Something done from outside; called by the scan thread.
   *
   * @param period that is due
   * @param deed as a scenario writes it
   */
  void event(long period, String deed) {
    lines.add("{before: " + period + ", " + deed + "}\n");
  }

  /**
   * The trace after a scan; called by the scan thread, allocates nothing. Everything before it has
   * been handed over. A mark that finds no room is left out.
   */
  void mark(long period, long crc) {
    long given = marksGiven;
    int place = (int) (given % MARKS) * 2;
    marks.setOpaque(place, period);
    marks.setOpaque(place + 1, crc);
    marksGiven = given + 1;
  }

  private void write() {
    while (failure == null && !closing) {
      LockSupport.parkNanos(PAUSE_NANOS);
      flush();
    }
  }

  private synchronized void flush() {
    try {
      long given =
          marksGiven; // read first: what was handed over before a mark is written before it
      for (String line = lines.poll(); line != null; line = lines.poll()) {
        out.write(line);
      }
      for (long i = Math.max(marksWritten, given - MARKS / 2); i < given; i++) {
        int place = (int) (i % MARKS) * 2;
        out.write("{mark: " + marks.get(place) + ", crc: " + marks.get(place + 1) + "}\n");
      }
      marksWritten = given;
      out.flush();
    } catch (IOException e) {
      failure = e;
    }
  }

  /** Why it can write no more, or null; the run is to end then, outputs safe. */
  IOException failure() {
    return failure;
  }

  /** The run has ended in order; called after its last scan. */
  void end(long period, String sha256) {
    lines.add("{end: " + period + ", sha256: " + sha256 + "}\n");
  }

  @Override
  public void close() throws IOException {
    closing = true;
    flush();
    out.close();
    if (failure != null) {
      throw failure;
    }
  }
}
