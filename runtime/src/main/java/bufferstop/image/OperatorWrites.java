package bufferstop.image;

import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReferenceArray;

/**
 * Writes on their way from other threads into a scan: a bounded queue in order of arrival. Each
 * scan takes at most one write a point; a request whose points include one already written in this
 * scan waits, whole, for the next, and so does every later request on any of its points. So a 1
 * followed by a 0 acts for a scan each, whoever sent them.
 */
public final class OperatorWrites {
  private static final int CAPACITY = 1024; // a power of two

  private final AtomicReferenceArray<WriteRequest> places = new AtomicReferenceArray<>(CAPACITY);
  private final AtomicLong tail = new AtomicLong();
  private volatile long head;
  private final WriteRequest[] waiting = new WriteRequest[CAPACITY];
  private int waitingCount;
  private final long[] takenInScan; // per cell: number of the scan that last wrote or deferred it
  private long scans;

  /**
   * @param cells size of the image
   */
  public OperatorWrites(int cells) {
    takenInScan = new long[cells];
  }

  /**
   * Offers a request; any thread.
   *
   * @return whether there was room
   */
  public boolean offer(WriteRequest request) {
    while (true) {
      long end = tail.get();
      if (end - head >= CAPACITY) {
        return false;
      }
      if (tail.compareAndSet(end, end + 1)) {
        places.set((int) (end & CAPACITY - 1), request);
        return true;
      }
    }
  }

  /** What takes the values of a request into the image. */
  public interface Taker {

    /** Called by the scan thread for each request that this scan takes, in their order. */
    void take(long[] cells, WriteRequest request);
  }

  /**
   * Takes what this scan may take; called by the scan thread alone, once a scan.
   *
   * @param cells the image, from which masked values are completed
   * @param publication number under which this scan will be published
   */
  public void drain(long[] cells, long publication, Taker taker) {
    scans++;
    int kept = 0;
    for (int i = 0; i < waitingCount; i++) {
      WriteRequest request = waiting[i];
      if (!takeOrMark(request, cells, publication, taker)) {
        waiting[kept++] = request;
      }
    }
    long at = head;
    while (kept < CAPACITY) {
      WriteRequest request = places.get((int) (at & CAPACITY - 1));
      if (request == null) {
        break;
      }
      places.set((int) (at & CAPACITY - 1), null);
      at++;
      if (!takeOrMark(request, cells, publication, taker)) {
        waiting[kept++] = request;
      }
    }
    for (int i = kept; i < waitingCount; i++) {
      waiting[i] = null;
    }
    waitingCount = kept;
    head = at;
  }

  private boolean takeOrMark(WriteRequest request, long[] cells, long publication, Taker taker) {
    boolean free = true;
    for (int i = 0; i < request.size(); i++) {
      free &= takenInScan[request.cell(i)] != scans;
    }
    boolean gone = !free ? request.isWithdrawn() : !request.takeFor(publication);
    if (gone) {
      return true;
    }
    for (int i = 0; i < request.size(); i++) {
      takenInScan[request.cell(i)] = scans;
    }
    if (free) {
      taker.take(cells, request);
    }
    return free;
  }
}
