package bufferstop.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Which scan takes which write. */
class OperatorWritesTest {
  private static final int X = 0;
  private static final int Y = 1;
  private static final int Z = 2;

  private final OperatorWrites writes = new OperatorWrites(3);
  private final long[] cells = new long[3];
  private long publication;

  private static WriteRequest set(int cell, long value) {
    return new WriteRequest(new int[] {cell}, new long[] {value}, new long[1]);
  }

  private static WriteRequest setBoth(int cell, int other, long value) {
    return new WriteRequest(new int[] {cell, other}, new long[] {value, value}, new long[2]);
  }

  private void offer(WriteRequest... requests) {
    for (WriteRequest request : requests) {
      assertTrue(writes.offer(request));
    }
  }

  private void assertScanGives(long x, long y, long z) {
    writes.drain(cells, publication++, (image, request) -> request.writeTo(image));
    assertArrayEquals(new long[] {x, y, z}, cells);
  }

  @Test
  void aPointTakesOneWriteAScanInTheOrderOffered() {
    offer(set(X, 1), set(X, 2), set(Y, 3), set(X, 4));
    assertScanGives(1, 3, 0);
    assertScanGives(2, 3, 0);
    assertScanGives(4, 3, 0);
    assertScanGives(4, 3, 0);
  }

  @Test
  void aRequestThatMustWaitForOnePointWaitsWhole() {
    offer(set(X, 1), setBoth(X, Y, 2));
    assertScanGives(1, 0, 0);
    assertScanGives(2, 2, 0);
  }

  @Test
  void aWriteNeverOvertakesARequestThatWaitsForItsPoint() {
    offer(set(X, 1), setBoth(X, Y, 2), set(Y, 3), set(Z, 4));
    assertScanGives(1, 0, 4);
    assertScanGives(2, 2, 4);
    assertScanGives(2, 3, 4);
  }

  @Test
  void waitingGoesOnThroughAChainOfRequests() {
    offer(set(X, 1), setBoth(X, Y, 2), setBoth(Y, Z, 3), set(Z, 4));
    assertScanGives(1, 0, 0);
    assertScanGives(2, 2, 0);
    assertScanGives(2, 3, 3);
    assertScanGives(2, 3, 4);
  }

  @Test
  void aWaitingRequestThatIsWithdrawnHoldsNobodyUp() {
    WriteRequest withdrawn = setBoth(X, Y, 2);
    offer(set(X, 1), withdrawn, set(Y, 3));
    assertTrue(withdrawn.withdraw());
    assertScanGives(1, 3, 0);
    assertScanGives(1, 3, 0);
  }

  @Test
  void aRequestWithdrawnAfterAScanDeferredItNeverActs() {
    WriteRequest withdrawn = setBoth(X, Y, 2);
    offer(set(X, 1), withdrawn, set(Y, 3));
    assertScanGives(1, 0, 0);
    assertTrue(withdrawn.withdraw());
    assertScanGives(1, 3, 0);
    assertTrue(withdrawn.withdraw(), "withdrawing twice says the same");
  }

  @Test
  void keptBitsAreThoseOfTheScanThatTakesTheWrite() {
    offer(
        set(X, 0xF0),
        new WriteRequest(new int[] {X}, new long[] {0x3A}, new long[] {0xF0}),
        new WriteRequest(new int[] {X}, new long[] {0x55}, new long[] {0x0F}));
    assertScanGives(0xF0, 0, 0);
    assertScanGives(0xFA, 0, 0);
    assertScanGives(0x5A, 0, 0);
  }

  @Test
  void aRequestKeepsItsOwnCopyOfWhatItWasGiven() {
    int[] cell = {X};
    long[] bits = {1};
    long[] keep = {0};
    offer(new WriteRequest(cell, bits, keep));
    cell[0] = Y;
    bits[0] = 2;
    keep[0] = -1;
    assertScanGives(1, 0, 0);
  }

  @Test
  void aFullQueueRefusesAndLosesNothingItAccepted() {
    int accepted = 0;
    while (writes.offer(set(X, accepted + 1))) {
      accepted++;
    }
    assertScanGives(1, 0, 0);
    int alsoAccepted = 0;
    while (writes.offer(set(X, accepted + alsoAccepted + 1))) {
      alsoAccepted++;
    }
    assertTrue(alsoAccepted > 0, "a scan made no room");
    for (long value = 2; value <= accepted + alsoAccepted; value++) {
      assertScanGives(value, 0, 0);
    }
    assertTrue(writes.offer(set(X, -1)));
    assertScanGives(-1, 0, 0);
  }

  @Test
  void aRefusedRequestNeverActs() {
    while (writes.offer(set(X, 1))) {
      publication++;
    }
    WriteRequest refused = set(Y, 9);
    assertFalse(writes.offer(refused));
    assertScanGives(1, 0, 0);
    assertScanGives(1, 0, 0);
    assertEquals(-1, refused.takenBy());
  }
}
