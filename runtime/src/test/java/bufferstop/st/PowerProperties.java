package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** The power function against that of the Java library, bit for bit. */
class PowerProperties {
  private static final long SEED = Long.getLong("bufferstop.seed", 20261125);
  private static final int ROUNDS = 200_000;
  private static final double[] SPECIAL = {
    0.0,
    1,
    2,
    0.5,
    3,
    1.5,
    Double.MIN_VALUE,
    Double.MAX_VALUE,
    Double.POSITIVE_INFINITY,
    Double.NaN,
    0x1p31,
    4e9,
    0x1p53,
    0x1p53 - 1,
    0x1p64,
    1 + 1e-10,
    1 - 1e-10,
    0x1.ffffep-1,
    0x1.fffffp-1,
    1023,
    1024,
    1074,
    1075,
    0x1p-1022,
    5e-320
  };

  private static void assertSame(double x, double y) {
    assertEquals(
        Double.doubleToLongBits(StrictMath.pow(x, y)),
        Double.doubleToLongBits(Power.of(x, y)),
        () -> "seed " + SEED + ": " + x + " ** " + y);
  }

  @Test
  void agreesWhereItIsSpecial() {
    for (double x : SPECIAL) {
      for (double y : SPECIAL) {
        assertSame(x, y);
        assertSame(-x, y);
        assertSame(x, -y);
        assertSame(-x, -y);
      }
    }
  }

  @Test
  void agreesAnywhere() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int round = 0; round < ROUNDS; round++) {
      assertSame(
          Double.longBitsToDouble(random.nextLong()), Double.longBitsToDouble(random.nextLong()));
      assertSame(random.nextDouble(100), random.nextDouble(-10, 10));
      assertSame(1 + random.nextDouble(-1e-6, 1e-6), random.nextDouble(-1e12, 1e12));
      assertSame(-random.nextInt(100), random.nextInt(-50, 50));
      assertSame(random.nextDouble() * 1e-310, random.nextDouble(-2, 2));
      assertSame(random.nextDouble(4), random.nextDouble(-2000, 2000));
    }
  }
}
