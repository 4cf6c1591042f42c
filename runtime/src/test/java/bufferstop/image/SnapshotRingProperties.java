package bufferstop.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What holds for a reader beside a publisher that never pauses. */
class SnapshotRingProperties {
  private static final int CELLS = 512;
  private static final int PUBLICATIONS_TO_SEE = 20_000;

  private final ExecutorService publisher = Executors.newSingleThreadExecutor();
  private final SnapshotRing ring = new SnapshotRing(CELLS);
  private volatile boolean enough;

  @AfterEach
  void end() {
    enough = true;
    publisher.shutdownNow();
  }

  private void publishUntilEnough() {
    long[] image = new long[CELLS];
    for (long n = 1; !enough; n++) {
      Arrays.fill(image, n);
      ring.publish(image);
    }
  }

  @Test
  void aCopyIsWholeAndNeverOlderThanOneBefore() throws Exception {
    ring.publish(new long[CELLS]);
    int[] indexes = IntStream.range(0, CELLS).toArray();
    long[] copy = new long[CELLS];
    int seen = 0;
    long last = 0;
    Future<?> publishing = publisher.submit(this::publishUntilEnough);
    while (seen < PUBLICATIONS_TO_SEE) {
      long atLeast = ring.published();
      long number = ring.copy(indexes, 0, CELLS, copy);
      for (long value : copy) {
        assertEquals(number, value, "a copy of two scans");
      }
      assertTrue(number >= last && number >= atLeast, "an old scan");
      seen += number > last ? 1 : 0;
      last = number;
    }
    enough = true;
    publishing.get();
  }
}
