package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.image.SnapshotRing;
import bufferstop.image.WriteRequest;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Type;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** Writes that no scan takes, and those it takes at the last moment. */
class HandoverTest {
  private static final String SWITCH_ON = "05 00 00 FF 00";
  private static final Runnable NO_SCAN = Thread::onSpinWait;

  private final Bench bench = new Bench().operator(Table.COIL, 0, Type.BOOL).scanned();

  private Frames frames(Runnable pause, long writeMillis) {
    return bench.frames(pause, writeMillis);
  }

  @Test
  void p8AnAnswerComesOnlyAfterTheScanThatShowsTheWrite() {
    AtomicInteger scans = new AtomicInteger();
    Runnable scanAtTheThirdLook =
        () -> {
          if (scans.incrementAndGet() == 3) {
            bench.scan();
          }
        };
    Frames frames = frames(scanAtTheThirdLook, 10_000);
    assertEquals(SWITCH_ON, frames.answer(SWITCH_ON));
    assertEquals(3, scans.get());
    assertEquals("01 01 01", frames.answer("01 00 00 00 01"));
  }

  @Test
  void aWriteThatNoScanTakesIs04AndNeverHappens() {
    assertEquals("85 04", frames(NO_SCAN, 20).answer(SWITCH_ON));
    bench.scan();
    bench.scan();
    assertEquals(0, bench.get(Table.COIL, 0));
  }

  @Test
  void aWriteThatAScanHasTakenIsAwaitedBeyondItsTime() {
    long writeMillis = 100;
    AtomicInteger looks = new AtomicInteger();
    Runnable takeThenPublishLate =
        () -> {
          if (looks.incrementAndGet() == 1) {
            bench.take();
            long taken = System.nanoTime();
            while (System.nanoTime() - taken < 1_000_000 * writeMillis) {
              Thread.onSpinWait();
            }
          } else if (looks.get() == 3) {
            bench.publish();
          }
        };
    assertEquals(SWITCH_ON, frames(takeThenPublishLate, writeMillis).answer(SWITCH_ON));
    assertEquals(3, looks.get());
  }

  @Test
  void aFullQueueIs06AndTheWriteNeverHappens() {
    WriteRequest offered = request(0);
    while (bench.writes.offer(offered)) {
      offered = request(0);
    }
    assertEquals("85 06", frames(NO_SCAN, 20).answer(SWITCH_ON));
    bench.scan();
    assertEquals(0, bench.get(Table.COIL, 0));
    assertEquals("05 00 00 00 00", frames(bench::scan, 10_000).answer("05 00 00 00 00"));
  }

  @Test
  void aFailureInsideIs04() {
    SnapshotRing tooSmall = new SnapshotRing(0);
    tooSmall.publish(new long[0]);
    Unit broken = new Unit(Bench.UNIT, bench.image(), bench.writes, tooSmall);
    assertEquals("81 04", new Frames(NO_SCAN, 20, broken).answer("01 00 00 00 01"));
  }

  private WriteRequest request(long bits) {
    return new WriteRequest(
        new int[] {bench.cell(Table.COIL, 0)}, new long[] {bits}, new long[] {0});
  }
}
