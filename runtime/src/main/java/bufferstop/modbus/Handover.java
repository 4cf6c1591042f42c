package bufferstop.modbus;

import bufferstop.image.SnapshotRing;
import bufferstop.image.WriteRequest;
import java.util.concurrent.TimeUnit;

/** Hands writes to the scan and waits until a published image shows them. */
final class Handover {
  private final long waitNanos;
  private final Runnable pause;

  /**
   * A handover.
   *
   * @param waitMillis how long a write may wait for a scan to take it
   * @param pause called between two looks; the scan thread wakes nobody
   */
  Handover(long waitMillis, Runnable pause) {
    this.waitNanos = TimeUnit.MILLISECONDS.toNanos(waitMillis);
    this.pause = pause;
  }

  /**
   * Returns once the write shows.
   *
   * @throws Refusal when there is no room, or no scan took it in time; then none ever will
   */
  void give(Unit unit, WriteRequest request) throws Refusal {
    Refusal.unless(unit.writes().offer(request), Refusal.DEVICE_BUSY);
    long start = System.nanoTime();
    while (!shows(unit.snapshots(), request)) {
      boolean closing = Thread.currentThread().isInterrupted();
      boolean late = System.nanoTime() - start >= waitNanos;
      // a scan that took the write in this very moment wins: its publication is awaited
      if ((late || closing) && request.withdraw() || closing) {
        throw new Refusal(Refusal.DEVICE_FAILURE);
      }
      pause.run();
    }
  }

  private boolean shows(SnapshotRing snapshots, WriteRequest request) {
    long publication = request.takenBy();
    return publication >= 0 && snapshots.published() >= publication;
  }
}
