package bufferstop.image;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;

/**
 * The last few scans' images, for readers on other threads. The scan thread publishes without
 * allocating, locking or waking anyone; a reader copies and checks that what he copied was not
 * overwritten meanwhile. All of one copy comes from one scan.
 */
public final class SnapshotRing {
  private static final int DEPTH = 8; // a reader may sleep 7 scans before he must begin again
  private static final VarHandle LONGS = MethodHandles.arrayElementVarHandle(long[].class);

  private final long[][] images = new long[DEPTH][];
  private final long[] stamps = new long[DEPTH]; // publication held by each place, -1 while written
  private volatile long published = -1;

  /**
   * @param cells size of an image
   */
  public SnapshotRing(int cells) {
    for (int i = 0; i < DEPTH; i++) {
      images[i] = new long[cells];
      stamps[i] = -1;
    }
  }

  /** Publishes the image; called by the scan thread alone, once a scan. */
  public void publish(long[] cells) {
    long number = published + 1;
    int place = (int) (number % DEPTH);
    LONGS.setOpaque(stamps, place, -1L);
    VarHandle.fullFence();
    System.arraycopy(cells, 0, images[place], 0, cells.length);
    LONGS.setRelease(stamps, place, number);
    published = number;
  }

  /** Number of the newest publication, counting from 0; -1 before the first. */
  public long published() {
    return published;
  }

  /**
   * Copies chosen cells of the newest publication.
   *
   * @param indexes cells to copy
   * @param from first of {@code indexes} to use
   * @param count how many
   * @param into where to put them, from 0
   * @return number of the publication they all come from
   * @throws IllegalStateException when nothing was published yet
   */
  public long copy(int[] indexes, int from, int count, long[] into) {
    while (true) {
      long number = published;
      if (number < 0) {
        throw new IllegalStateException("no scan was published yet");
      }
      int place = (int) (number % DEPTH);
      if ((long) LONGS.getAcquire(stamps, place) == number) {
        long[] image = images[place];
        for (int i = 0; i < count; i++) {
          into[i] = (long) LONGS.getOpaque(image, indexes[from + i]);
        }
        VarHandle.acquireFence();
        if ((long) LONGS.getOpaque(stamps, place) == number) {
          return number;
        }
      }
      Thread.onSpinWait();
    }
  }

  /** Works on one publication. */
  public interface Reader {

    /**
     * Reads what it needs from an image. It may be called again, and values may then have been of
     * two scans: what it made of them is not used, but it must not fail over them.
     *
     * @param cells not to be kept or written
     */
    void read(long[] cells);
  }

  /**
   * Lets a reader work on the newest publication, again until it was not overwritten meanwhile.
   *
   * @return number of the publication that was read
   * @throws IllegalStateException when nothing was published yet
   */
  public long read(Reader reader) {
    while (true) {
      long number = published;
      if (number < 0) {
        throw new IllegalStateException("no scan was published yet");
      }
      int place = (int) (number % DEPTH);
      if ((long) LONGS.getAcquire(stamps, place) == number) {
        reader.read(images[place]);
        VarHandle.acquireFence();
        if ((long) LONGS.getOpaque(stamps, place) == number) {
          return number;
        }
      }
      Thread.onSpinWait();
    }
  }
}
