package bufferstop.modbus;

import bufferstop.image.OperatorWrites;
import bufferstop.image.SnapshotRing;
import bufferstop.image.WriteRequest;
import java.util.concurrent.TimeUnit;

/** Hands writes to the scan and waits until a published image shows them. */
final class Handover {
  private final OperatorWrites writes;
  private final SnapshotRing snapshots;
  private final long waitNanos;
  private final Runnable pause;

  /**
   * A handover.
   *
   * @param waitMillis how long a write may wait for a scan to take it
   * @param pause called between two looks; the scan thread wakes nobody
   */
  Handover(OperatorWrites writes, SnapshotRing snapshots, long waitMillis, Runnable pause) {
    this.writes = writes;
    this.snapshots = snapshots;
    this.waitNanos = TimeUnit.MILLISECONDS.toNanos(waitMillis);
    this.pause = pause;
  }

  /**
   * Returns once the write shows.
   *
   * @throws Refusal when there is no room, or no scan took it in time; then none ever will
   */
  void give(WriteRequest request) throws Refusal {
    Refusal.unless(writes.offer(request), Refusal.DEVICE_BUSY);
    long start = System.nanoTime();
    while (!shows(request)) {
      boolean closing = Thread.currentThread().isInterrupted();
      boolean late = System.nanoTime() - start >= waitNanos;
      // a scan that took the write in this very moment wins: its publication is awaited
      if ((late || closing) && request.withdraw() || closing) {
        throw new Refusal(Refusal.DEVICE_FAILURE);
      }
      pause.run();
    }
  }

  private boolean shows(WriteRequest request) {
    long publication = request.takenBy();
    return publication >= 0 && snapshots.published() >= publication;
  }
}
