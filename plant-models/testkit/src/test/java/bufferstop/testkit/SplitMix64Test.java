package bufferstop.testkit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.SplitMix64;
import org.junit.jupiter.api.Test;

class SplitMix64Test {
  // First numbers of the algorithm for seed 1234567, as commonly published with it [from memory,
  // not re-read].
  @Test
  void givesThePublishedNumbers() {
    SplitMix64 stream = new SplitMix64(1234567);
    assertEquals("6457827717110365317", Long.toUnsignedString(stream.nextLong()));
    assertEquals("3203168211198807973", Long.toUnsignedString(stream.nextLong()));
    assertEquals("9817491932198370423", Long.toUnsignedString(stream.nextLong()));
  }

  @Test
  void spreadsEvenlyOverZeroToOne() {
    SplitMix64 stream = new SplitMix64(7);
    double sum = 0;
    for (int i = 0; i < 10_000; i++) {
      double next = stream.nextDouble();
      assertTrue(next >= 0 && next < 1);
      sum += next;
    }
    assertEquals(0.5, sum / 10_000, 0.015); // five standard deviations of the mean
  }
}
