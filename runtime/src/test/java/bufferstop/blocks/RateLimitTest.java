package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** RATE_LIMIT against a straight line. */
class RateLimitTest {
  private static Instance limit() {
    return new Instance(RateLimit.TYPE, RateLimit::step).set("UP", 2).set("DOWN", 8);
  }

  @Test
  void risesAlongAStraightLineAtUnevenTimesAndStopsAtTheGoal() {
    Instance limit = limit().set("IN", 10).at(0).set("IN", 16);
    for (double t : new double[] {0.01, 0.5, 0.503, 1.7, 2.999}) {
      assertEquals(10 + 2 * t, limit.at(t).real("OUT"), 1e-12);
      assertTrue(limit.on("LIMITED"));
    }
    assertEquals(16, limit.at(3.5).real("OUT"));
    assertEquals("-", limit.told());
  }

  @Test
  void fallsAtItsOwnRate() {
    Instance limit = limit().set("IN", 10).at(0).set("IN", -10);
    assertEquals(6, limit.at(0.5).real("OUT"), 1e-12);
    assertEquals(-10, limit.at(4).real("OUT"));
  }

  @Test
  void followsAtOnceWhatIsSlowEnough() {
    Instance limit = limit().set("IN", 0).at(0);
    assertEquals(0.19, limit.set("IN", 0.19).at(0.1).real("OUT"));
    assertEquals("-", limit.told());
  }

  @Test
  void aRateOfZeroHoldsThatDirection() {
    Instance limit = limit().set("UP", 0).set("IN", 5).at(0).set("IN", 9);
    assertEquals(5, limit.at(100).real("OUT"));
    assertEquals(1, limit.set("IN", 1).at(200).real("OUT"));
  }

  @Test
  void doesNothingWhileAnInputIsWrongAndDoesNotMakeUpForItAfterwards() {
    Instance limit = limit().set("IN", 0).at(0).set("IN", 100).at(1);
    assertEquals(2, limit.set("IN", Double.NaN).at(2).real("OUT"));
    assertEquals("LIMITED ERR", limit.told());
    assertEquals(2, limit.set("IN", 100).set("UP", -1).at(50).real("OUT"));
    assertEquals(3, limit.set("UP", 2).at(50.5).real("OUT"), 1e-12);
  }
}
