package bufferstop.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** What a reader gets while nobody publishes. */
class SnapshotRingTest {
  private final SnapshotRing ring = new SnapshotRing(3);

  @Test
  void thereIsNothingToCopyBeforeTheFirstPublication() {
    assertEquals(-1, ring.published());
    assertThrows(IllegalStateException.class, () -> ring.copy(new int[] {0}, 0, 1, new long[1]));
  }

  @Test
  void aCopyIsOfTheNewestPublicationAndNotOfTheImageSince() {
    long[] image = new long[3];
    long[] copy = new long[3];
    for (int n = 0; n < 100; n++) {
      image[0] = n;
      image[1] = -n;
      image[2] = 7;
      ring.publish(image);
      image[0] = 12_345;
      assertEquals(n, ring.published());
      assertEquals(n, ring.copy(new int[] {0, 1, 2}, 0, 3, copy));
      assertArrayEquals(new long[] {n, -n, 7}, copy);
    }
  }

  @Test
  void aCopyHoldsTheCellsAskedForInTheOrderAskedFor() {
    ring.publish(new long[] {10, 11, 12});
    long[] copy = {-1, -1, -1};
    ring.copy(new int[] {9, 2, 0, 9}, 1, 2, copy);
    assertArrayEquals(new long[] {12, 10, -1}, copy);
  }
}
