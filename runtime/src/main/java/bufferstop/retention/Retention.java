package bufferstop.retention;

import bufferstop.image.SnapshotRing;
import bufferstop.model.Symbol;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongSupplier;

/**
 * Keeps chosen cells of a run: brings them back at its start, and saves them whenever they have
 * changed, at most once in an interval and at the end. A thread of its own looks at published
 * scans; the scan never waits for a disk.
 */
public final class Retention implements AutoCloseable {
  private final RetentionFile file;
  private final List<Symbol> kept;
  private final int[] cells;
  private final LongSupplier clockMillis;
  private long number;
  private long[] saved; // as the file has it, null before the first save
  private SnapshotRing snapshots;
  private Thread thread;
  private volatile boolean closing;
  private volatile IOException failure;

  /**
   * @param kept their cells
   * @param clockMillis milliseconds since 1970, for the file
   */
  public Retention(RetentionFile file, List<Symbol> kept, LongSupplier clockMillis) {
    this.file = file;
    this.kept = List.copyOf(kept);
    this.clockMillis = clockMillis;
    cells = kept.stream().mapToInt(Symbol::index).toArray();
  }

  /**
   * Writes what the file holds into the image, by name and type: what still fits is taken, the rest
   * is told.
   *
   * @param said takes a line about each value that is dropped and each file that is damaged
   * @return how many cells were brought back
   * @throws IOException when a file that is there cannot be read
   */
  public int restore(long[] image, List<String> said) throws IOException {
    RetentionFile.State state = file.load(said);
    if (state == null) {
      return 0;
    }
    number = state.number();
    Map<String, Symbol> byName = new TreeMap<>();
    kept.forEach(symbol -> byName.put(symbol.name(), symbol));
    int taken = 0;
    for (RetainedValue value : state.values()) {
      Symbol symbol = byName.get(value.name());
      if (symbol == null) {
        said.add("`" + value.name() + "` was kept, but nothing of that name is kept any more");
      } else if (symbol.type() != value.type()) {
        said.add(
            "`%s` was kept as %s and is %s now: it starts anew"
                .formatted(value.name(), value.type(), symbol.type()));
      } else {
        image[symbol.index()] = value.bits();
        taken++;
      }
    }
    return taken;
  }

  /**
   * Begins to save.
   *
   * @param everyMicros longest time for which a change is on no disk, but for the writing itself
   */
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
    long[] now = new long[cells.length];
    snapshots.copy(cells, 0, cells.length, now);
    if (Arrays.equals(now, saved)) {
      return;
    }
    List<RetainedValue> values = new ArrayList<>();
    for (int i = 0; i < now.length; i++) {
      values.add(new RetainedValue(kept.get(i).name(), kept.get(i).type(), now[i]));
    }
    try {
      file.save(new RetentionFile.State(number + 1, clockMillis.getAsLong(), values));
      number++;
      saved = now;
      failure = null;
    } catch (IOException e) {
      failure = e;
    }
  }

  /** Why the last save failed; null when it did not. */
  public IOException failure() {
    return failure;
  }

  /** Saves what has changed since, and ends. */
  @Override
  public void close() {
    closing = true;
    if (thread == null) {
      return;
    }
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
}
