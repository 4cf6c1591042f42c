package bufferstop.retention;

import bufferstop.image.SnapshotRing;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Consumer;
import java.util.function.LongSupplier;

/**
 * Keeps what is retained in a folder: brings it back at the start of a run, and saves it whenever
 * it has changed, at most once in an interval and at the end. A thread of its own looks at
 * published scans; the scan never waits for a disk. A save that fails is told, and tried again.
 */
public final class Retention implements AutoCloseable {
  /** Longest time for which a change is on no disk, but for the writing itself. */
  public static final long EVERY_MICROS = 500_000;

  /** How far the clock alone may go on until it is saved again. */
  private static final long CLOCK_MICROS = 10_000_000;

  private final RetentionFile file;
  private final RetainedCells kept;
  private final LongSupplier clockMillis;
  private final Consumer<String> told;
  private final FileChannel lock; // held while it is open
  private long number;
  private long[] saved; // as the file has it, null before the first save
  private SnapshotRing snapshots;
  private Thread thread;
  private volatile boolean closing;
  private boolean failing;

  /**
   * What a start found.
   *
   * @param values that were kept
   * @param atMillis when, milliseconds since 1970; 0 when there is no file
   */
  public record Found(List<RetainedValue> values, long atMillis) {}

  /**
   * Takes the folder, which is made if need be.
   *
   * @param clockMillis milliseconds since 1970, for the file
   * @param told takes a line when saving fails, and when it works again; from the thread that saves
   * @throws IOException when the folder cannot be written, or another run has it; the message says
   *     which
   */
  public Retention(Path folder, RetainedCells kept, LongSupplier clockMillis, Consumer<String> told)
      throws IOException {
    file = new RetentionFile(folder.resolve("retained"));
    this.kept = kept;
    this.clockMillis = clockMillis;
    this.told = told;
    Files.createDirectories(folder);
    lock =
        FileChannel.open(
            folder.resolve("retained.lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    if (!isLocked(lock)) {
      lock.close();
      throw new IOException("another run keeps its values there");
    }
  }

  private static boolean isLocked(FileChannel channel) throws IOException {
    try {
      FileLock mine = channel.tryLock();
      return mine != null;
    } catch (OverlappingFileLockException e) {
      return false; // of this process
    }
  }

  /**
   * What the folder holds.
   *
   * @param said takes a line about each file that is damaged
   * @throws IOException when a file that is there cannot be read
   */
  public Found load(List<String> said) throws IOException {
    RetentionFile.State state = file.load(said);
    if (state == null) {
      return new Found(List.of(), 0);
    }
    number = state.number();
    return new Found(state.values(), state.atMillis());
  }

  /** Begins to save. */
  public void begin(SnapshotRing published, long everyMicros) {
    snapshots = published;
    thread = new Thread(() -> saveAgainAndAgain(everyMicros), "retention");
    thread.setDaemon(true);
    thread.start();
  }

  private void saveAgainAndAgain(long everyMicros) {
    while (!closing) {
      LockSupport.parkNanos(TimeUnit.MICROSECONDS.toNanos(everyMicros));
      saveIfChanged();
    }
  }

  private void saveIfChanged() {
    if (snapshots.published() < 0) {
      return;
    }
    long[] now = new long[kept.indexes().length];
    snapshots.copy(kept.indexes(), 0, now.length, now);
    if (!isChanged(now)) {
      return;
    }
    try {
      file.save(new RetentionFile.State(number + 1, clockMillis.getAsLong(), kept.values(now)));
      number++;
      saved = now;
      if (failing) {
        told.accept("retained values are saved again");
      }
      failing = false;
    } catch (IOException e) {
      if (!failing) {
        told.accept(
            "retained values cannot be saved: "
                + e.getMessage()
                + "; the run goes on, and it is tried again");
      }
      failing = true;
    }
  }

  private boolean isChanged(long[] now) {
    if (saved == null) {
      return true;
    }
    int last = now.length - 1;
    return kept.hasClock()
        ? !Arrays.equals(now, 0, last, saved, 0, last) || now[last] - saved[last] >= CLOCK_MICROS
        : !Arrays.equals(now, saved);
  }

  /** Saves what has changed since, and lets the folder go. */
  @Override
  public void close() {
    closing = true;
    if (thread != null) {
      LockSupport.unpark(thread);
      boolean interrupted = false;
      while (thread.isAlive()) {
        try {
          thread.join();
        } catch (InterruptedException e) {
          interrupted = true;
        }
      }
      saveIfChanged();
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
    try {
      lock.close();
    } catch (IOException e) {
      // nothing more can be done about it, and the process ends
    }
  }
}
