package bufferstop.image;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

/** What holds when several threads offer while a scan drains. */
class OperatorWritesProperties {
  private static final int WRITERS = 3;
  private static final int WRITES_EACH = 20_000;

  private final OperatorWrites writes = new OperatorWrites(WRITERS);
  private final List<List<Long>> taken = new ArrayList<>();

  private Void offerAll(int point) {
    for (long value = 1; value <= WRITES_EACH; value++) {
      WriteRequest request = new WriteRequest(new int[] {point}, new long[] {value}, new long[1]);
      while (!writes.offer(request)) {
        Thread.onSpinWait();
      }
    }
    return null;
  }

  @Test
  void everyWriteActsOnceAndInTheOrderOfItsWriter() throws Exception {
    ExecutorService writers = Executors.newFixedThreadPool(WRITERS);
    List<Future<Void>> ends = new ArrayList<>();
    for (int i = 0; i < WRITERS; i++) {
      int point = i;
      taken.add(new ArrayList<>());
      ends.add(writers.submit(() -> offerAll(point)));
    }
    long[] cells = new long[WRITERS];
    long scans = 0;
    boolean offering = true;
    int before = -1;
    while (offering || count() > before) { // the scan after the last offer may still find writes
      offering = !ends.stream().allMatch(Future::isDone);
      before = count();
      writes.drain(cells, scans++, (image, request) -> note(request, image));
    }
    writers.shutdown();
    for (Future<Void> end : ends) {
      end.get();
    }
    for (List<Long> ofOne : taken) {
      assertEquals(WRITES_EACH, ofOne.size());
      for (int i = 0; i < WRITES_EACH; i++) {
        assertEquals(i + 1, ofOne.get(i));
      }
    }
  }

  private void note(WriteRequest request, long[] image) {
    request.writeTo(image);
    for (int i = 0; i < request.size(); i++) {
      taken.get(request.cell(i)).add(image[request.cell(i)]);
    }
  }

  private int count() {
    return taken.stream().mapToInt(List::size).sum();
  }
}
