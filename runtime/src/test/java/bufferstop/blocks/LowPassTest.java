package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** LOW_PASS against the closed form of a lag of first order. */
class LowPassTest {
  private static final double[] UNEVEN = {1.0, 1.003, 1.1, 1.1, 2.5, 2.6, 4.0, 11.0, 60.0};

  private static Instance filter(long lagMillis) {
    return new Instance(LowPass.TYPE, LowPass::step).millis("T", lagMillis);
  }

  @Test
  void answersAStepWithOneMinusExpWhateverTheTimesOfTheScans() {
    Instance filter = filter(2_000).set("IN", 5).at(0);
    filter.set("IN", 15);
    for (double t : UNEVEN) {
      double expected = 15 - 10 * Math.exp(-(t - 1.0) / 2.0);
      assertEquals(expected, filter.at(t).real("OUT"), 1e-12, () -> "at " + t);
    }
  }

  @Test
  void isTheSameWhetherCalledOftenOrSeldom() {
    Instance often = filter(700).set("IN", 1).at(0).set("IN", -3);
    Instance seldom = filter(700).set("IN", 1).at(0).set("IN", -3).at(0.001);
    for (int milli = 1; milli <= 1_500; milli++) {
      often.at(milli / 1000.0);
    }
    assertEquals(seldom.at(1.5).real("OUT"), often.real("OUT"), 1e-12);
  }

  @Test
  void beginsAtTheFirstValue() {
    assertEquals(42.5, filter(10_000).set("IN", 42.5).at(3).real("OUT"));
  }

  @Test
  void passesStraightThroughWithoutATimeConstant() {
    Instance filter = filter(0).set("IN", 1).at(0);
    assertEquals(7, filter.set("IN", 7).at(0.1).real("OUT"));
    assertEquals(9, filter.millis("T", -5).set("IN", 9).at(0.2).real("OUT"));
  }

  @Test
  void aNumberThatIsNoneStaysOutsideAndItsTimeDoesNotCount() {
    Instance filter = filter(1_000).set("IN", 0).at(0).set("IN", 8).at(1);
    double before = filter.at(2).real("OUT");
    assertEquals(before, filter.set("IN", Double.NaN).at(3).real("OUT"));
    assertTrue(filter.on("ERR"));
    assertEquals(before, filter.set("IN", Double.NEGATIVE_INFINITY).at(90).real("OUT"));
    filter.set("IN", 8).at(91);
    assertFalse(filter.on("ERR"));
    assertEquals(8 - (8 - before) * Math.exp(-1), filter.real("OUT"), 1e-12);
  }

  @Test
  void aFirstValueThatIsNoneDoesNotBeginAnything() {
    Instance filter = filter(1_000).set("IN", Double.NaN).at(0);
    assertEquals(0, filter.real("OUT"));
    assertEquals(6, filter.set("IN", 6).at(1).real("OUT"));
  }

  @Test
  void aSwingOverTheWholeRangeOfLrealPoisonsNothing() {
    Instance filter = filter(1_000).set("IN", Double.MAX_VALUE).at(0);
    filter.set("IN", -Double.MAX_VALUE).at(1).at(2);
    assertTrue(filter.on("ERR"));
    filter.set("IN", 3).at(3).at(4);
    assertTrue(Double.isFinite(filter.real("OUT")));
  }
}
