package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** PID against closed forms of the standard form with constant signals. */
class PidTest {
  // Source: K. J. Astrom, T. Hagglund, Advanced PID Control, ISA 2006 [from memory, not re-read]:
  // u = K (b r - y + 1/Ti integral e dt + Td d(c r - y)/dt), derivative filtered with Td/N.

  private static final double[] UNEVEN = {10.0, 10.01, 10.5, 10.5, 11.7, 14.0, 17.3};

  private static Instance pid(double gain) {
    return new Instance(Pid.TYPE, Pid::step)
        .set("GAIN", gain)
        .set("OUT_LOW", -1e6)
        .set("OUT_HIGH", 1e6);
  }

  @Test
  void theProportionalPartIsGainTimesError() {
    Instance pid = pid(2.5).set("SP", 10).set("PV", 4);
    assertEquals(15, pid.at(0).real("OUT"));
    assertEquals(15, pid.at(100).real("OUT"));
    assertEquals(-5, pid.set("PV", 12).at(101).real("OUT"));
  }

  @Test
  void theSetpointWeightActsOnTheProportionalPartAlone() {
    Instance pid = pid(2).set("B", 0.25).set("SP", 8).set("PV", 3).millis("TI", 4_000).at(0);
    assertEquals(2 * (0.25 * 8 - 3), pid.real("P"));
    assertEquals(2 * 5 * 6 / 4.0, pid.at(6).real("I"), 1e-12);
  }

  @Test
  void directActionRisesWithTheMeasuredValue() {
    Instance pid = pid(3).set("DIRECT", true).millis("TI", 1_000).set("PV", 5).at(0);
    assertEquals(15, pid.real("OUT"));
    assertEquals(30, pid.at(1).real("OUT"), 1e-12);
  }

  @Test
  void theIntegralOfAConstantErrorIsAStraightLine() {
    Instance pid = pid(2).millis("TI", 5_000).at(0).set("SP", 3);
    for (double t : UNEVEN) {
      assertEquals(6 + 2 * 3 * (t - 10) / 5, pid.at(t).real("OUT"), 1e-12);
    }
  }

  @Test
  void afterTiTheIntegralHasRepeatedTheProportionalPart() {
    Instance pid = pid(2).millis("TI", 5_000).set("SP", 3).at(0).at(5);
    assertEquals(pid.real("P"), pid.real("I"), 1e-12);
  }

  @Test
  void theDerivativeOfAStepIsGainTimesNAndDecaysWithTdOverN() {
    Instance pid = pid(2).millis("TD", 4_000).set("N", 8).at(0).set("PV", 1.5);
    for (double t : UNEVEN) {
      double expected = -2 * 8 * 1.5 * Math.exp(-(t - 10) * 8 / 4);
      assertEquals(expected, pid.at(t).real("D"), 1e-12);
      assertEquals(-3 + expected, pid.real("OUT"), 1e-12);
    }
  }

  @Test
  void theDerivativeOfARampIsGainTimesTdTimesItsSlope() {
    Instance pid = pid(2).millis("TD", 1_000).set("N", 10);
    for (int milli = 0; milli <= 5_000; milli++) {
      pid.set("PV", 0.3 * milli / 1000).at(milli / 1000.0);
    }
    assertEquals(-2 * 1 * 0.3, pid.real("D"), 0.006); // a call holds half a step: 1 ms of 100 ms
  }

  @Test
  void aStepOfTheSetpointKicksTheDerivativeOnlyWithItsWeight() {
    Instance pid = pid(2).millis("TD", 4_000).set("N", 8).at(0);
    assertEquals(0, pid.set("SP", 5).at(1).real("D"));
    assertEquals(2 * 8 * 5, pid.set("C", 1).at(2).real("D"));
  }

  @Test
  void outStaysWithinItsLimitsAndTellsSo() {
    Instance pid = pid(10).set("OUT_LOW", 0).set("OUT_HIGH", 100).set("SP", 20).at(0);
    assertEquals(100, pid.real("OUT"));
    assertTrue(pid.on("LIMITED"));
    assertEquals(0, pid.set("SP", -20).at(1).real("OUT"));
    assertFalse(pid.set("SP", 5).at(2).on("LIMITED"));
  }

  /** Error 10, gain 1, TI 10 s: the limit of 20 is reached after 10 s, with an integral of 10. */
  private static Instance windUp(long ttMillis) {
    Instance pid = pid(1).set("OUT_LOW", 0).set("OUT_HIGH", 20).millis("TI", 10_000);
    pid.millis("TT", ttMillis).set("SP", 10);
    for (int tenth = 0; tenth <= 10_000; tenth++) {
      pid.at(tenth / 10.0);
    }
    return pid;
  }

  @Test
  void theIntegralWaitsWhileTheOutputIsLimited() {
    Instance pid = windUp(0);
    assertEquals(20, pid.real("OUT"));
    assertEquals(10, pid.real("I"), 0.11); // at most one step of 0.1 beyond
    assertEquals(pid.real("I") - 1, pid.set("SP", -1).at(1_000.1).real("OUT"), 1e-9);
  }

  @Test
  void backCalculationSettlesWhereBothPullsAreEqual() {
    Instance pid = windUp(5_000); // error / TI = excess / TT: 5 beyond the limit
    assertEquals(15, pid.real("I"), 1e-9);
    assertEquals(14, pid.set("SP", -1).at(1_000).real("OUT"), 1e-9);
  }

  @Test
  void backCalculationIsStableHoweverSeldomTheCalls() {
    Instance pid = pid(1).set("OUT_HIGH", 20).millis("TI", 10_000).millis("TT", 10).set("SP", 50);
    for (int call = 0; call < 100; call++) {
      pid.at(call * 5.0);
    }
    assertEquals(20 - 50 + 0.05, pid.real("I"), 1e-9);
  }

  @Test
  void manualTakesItsValueAtTheFirstCallAndWheneverItChanges() {
    Instance pid = pid(1).set("AUTO", false).set("MANUAL", 30).set("SP", 500).at(0);
    assertEquals(30, pid.real("OUT"));
    assertEquals(45, pid.set("MANUAL", 45).at(1).real("OUT"));
  }

  @Test
  void leavingAutomaticKeepsTheOutputUntilManualChanges() {
    Instance pid = pid(2).set("MANUAL", 30).set("SP", 5).at(0);
    assertEquals(10, pid.set("AUTO", false).at(1).real("OUT"));
    assertEquals(10, pid.set("PV", 40).at(2).real("OUT"));
    assertEquals(31, pid.set("MANUAL", 31).at(3).real("OUT"));
    assertEquals(31, pid.set("AUTO", true).at(4).real("OUT"), 1e-12);
    assertEquals(50, pid.set("AUTO", false).set("MANUAL", 50).at(5).real("OUT"));
  }

  @Test
  void trackingFollowsAndReleasesWithoutABump() {
    Instance pid = pid(2).millis("TI", 10_000).set("SP", 5).at(0);
    assertEquals(77, pid.set("TRACK", true).set("TRACKED", 77).at(1).real("OUT"));
    assertEquals(78, pid.set("TRACKED", 78).at(2).real("OUT"));
    assertEquals(78, pid.set("TRACK", false).at(3).real("OUT"), 1e-12);
    assertEquals(79, pid.at(4).real("OUT"), 1e-12); // error 5: 2 * 5 / 10 a second
  }

  @Test
  void manualAndTrackingStayWithinTheLimits() {
    Instance pid = pid(1).set("OUT_LOW", 0).set("OUT_HIGH", 100).set("AUTO", false);
    assertEquals(100, pid.set("MANUAL", 130).at(0).real("OUT"));
    assertEquals(0, pid.set("TRACK", true).set("TRACKED", -9).at(1).real("OUT"));
  }

  @Test
  void holdsTheOutputWhileThePvIsNoNumberAndGoesOnWithoutABump() {
    Instance pid = pid(2).millis("TI", 10_000).millis("TD", 1_000).set("SP", 5).at(0).at(1);
    double out = pid.real("OUT");
    assertEquals(out, pid.set("PV", Double.NaN).at(2).real("OUT"));
    assertTrue(pid.on("ERR"));
    assertEquals(out, pid.at(500).real("OUT"));
    assertEquals(out, pid.set("PV", 3).at(501).real("OUT"), 1e-12);
    assertFalse(pid.on("ERR"));
    assertEquals(out + 2 * 2 * 1 / 10.0, pid.at(502).real("OUT"), 1e-12);
  }

  @Test
  void manualWorksWithoutAMeasuredValue() {
    Instance pid = pid(2).set("AUTO", false).set("PV", Double.NaN).at(0);
    assertEquals(12, pid.set("MANUAL", 12).at(1).real("OUT"));
    assertTrue(pid.on("ERR"));
    assertEquals(12, pid.set("MANUAL", Double.NaN).at(2).real("OUT"));
  }

  @Test
  void holdsTheOutputWhileSettingsContradict() {
    Instance pid = pid(1).set("SP", 5).at(0);
    assertEquals(5, pid.set("SP", 6).set("OUT_LOW", 10).set("OUT_HIGH", 0).at(1).real("OUT"));
    assertTrue(pid.on("ERR"));
    pid.set("OUT_LOW", 0).set("OUT_HIGH", 10);
    assertEquals(5, pid.set("N", 0).at(2).real("OUT"));
    assertEquals(5, pid.set("N", 10).set("GAIN", Double.POSITIVE_INFINITY).at(3).real("OUT"));
    assertEquals(5, pid.set("GAIN", 1).at(4).real("OUT"), 1e-12);
    assertFalse(pid.on("ERR"));
  }
}
