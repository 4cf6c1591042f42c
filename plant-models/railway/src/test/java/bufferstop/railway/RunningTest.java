package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Source of the figures: rail and sensor reference 3.5, check C3.9, worked out there from F3.1 to
 * F3.7 for an invented locomotive [project choice]. Relative tolerance 1e-6 where the reference
 * prints the digits, else its printed precision.
 */
class RunningTest {
  private static final long FINE = 100;

  private static Bench atFullSpeed(String settings) {
    return new Bench(settings, FINE).set("feed.close", 1).run(4);
  }

  @Test
  void reachesTheTerminalSpeedAndCurrent() {
    Bench bench = atFullSpeed(Lines.REFERENCE);
    assertEquals(0.405594883, bench.get("loco.speed"), 0.405594883e-6);
    assertEquals(0.0676185, bench.get("loco.current"), 5e-8);
  }

  @ParameterizedTest(name = "{1} m/s after {0} s")
  @CsvSource({"0.1, 0.227395758", "0.5, 0.398955037"})
  void speedsUpAsTheClosedFormSays(double seconds, double speed) {
    Bench bench = new Bench(Lines.REFERENCE, FINE).set("feed.close", 1).run(seconds);
    assertEquals(speed, bench.get("loco.speed"), 1e-6 * speed);
  }

  @ParameterizedTest(name = "in steps of {0} us")
  @CsvSource({"1000", "10000"})
  void coarseStepStaysNearTheClosedForm(long stepMicros) {
    // The midpoint rule errs by (h / tau)^2 / 12, with h at most 1 ms and tau 0.1216 s: 6e-6
    // [computed].
    Bench bench = new Bench(Lines.REFERENCE, stepMicros).set("feed.close", 1).run(0.1);
    assertEquals(0.227395758, bench.get("loco.speed"), 1e-5 * 0.227395758);
  }

  @ParameterizedTest(name = "{0} V moves it: {1}")
  @CsvSource({"1.3523, false", "1.3524, true", "-1.3523, false", "-1.3524, true"})
  void startsAtTheStartVoltage(double volts, boolean moves) {
    for (String settings : new String[] {Lines.REFERENCE, Lines.FULL}) {
      Bench bench = new Bench(settings, 1000);
      bench.set("feed.volts", volts).set("feed.close", 1).run(2);
      assertEquals(moves, bench.get("loco.speed") != 0);
      assertEquals(
          moves ? Math.signum(volts) : 0,
          Math.signum(0.0 + Math.rint((bench.get("loco.position") - 0.16) * 1e9)));
    }
  }

  @Test
  void coastsOnFrictionAloneWithThePowerOff() {
    Bench bench = atFullSpeed(Lines.REFERENCE);
    double from = bench.get("loco.position");
    double seconds = bench.set("feed.close", 0).until("loco.speed", 0);
    assertEquals(0.957296, seconds, 1e-4 + 1e-6); // told at the end of a step of 0.1 ms
    assertEquals(0.194137, bench.get("loco.position") - from, 1e-6);
    assertEquals(0, bench.get("loco.current"));
  }

  @Test
  void brakesWithTheTerminalsShorted() {
    Bench bench =
        atFullSpeed(Lines.REFERENCE.replace("volts: 12", "volts: 12\n    when_off: shorted"));
    double from = bench.get("loco.position");
    double seconds = bench.set("feed.close", 0).until("loco.speed", 0);
    assertEquals(0.265431, seconds, 1e-4 + 1e-6);
    assertEquals(0.035642, bench.get("loco.position") - from, 1e-6);
  }

  @Test
  void drawsNearlyTwiceTheStallCurrentWhenReversedAtSpeed() {
    Bench bench = new Bench(Lines.REFERENCE, 1);
    bench.push(1, 0.405594883).set("feed.close", 1).set("feed.reverse", 1).step();
    // In the microsecond after the reversal the current falls by 1e-5 A [computed].
    assertEquals(-1.132381, bench.get("loco.current"), 2e-5);
  }

  @Test
  void reversedTrainStopsAndRunsBack() {
    Bench bench = atFullSpeed(Lines.FULL).set("feed.reverse", 1).run(6);
    assertEquals(-0.405594883, bench.get("loco.speed"), 1e-6);
  }

  @Test
  void deadSupplyBehindARectifierIsNoBrake() {
    Bench coasting = atFullSpeed(Lines.REFERENCE).set("feed.close", 0).run(0.2);
    Bench unfed = atFullSpeed(Lines.REFERENCE).set("feed.volts", 0).run(0.2);
    Bench battery =
        atFullSpeed(Lines.REFERENCE.replace("volts: 12", "volts: 12\n    returns_current: TRUE"));
    battery.set("feed.volts", 0).run(0.2);
    assertEquals(coasting.get("loco.speed"), unfed.get("loco.speed"));
    assertTrue(battery.get("loco.speed") < unfed.get("loco.speed") / 2);
  }

  @Test
  void staysWhereItStoppedWithoutCreeping() {
    Bench bench = atFullSpeed(Lines.FULL).set("feed.close", 0).run(2);
    double stood = bench.get("loco.position");
    bench.run(5);
    assertEquals(stood, bench.get("loco.position"));
    assertEquals(0, bench.get("loco.speed"));
  }

  @Test
  void openMotorNeitherPullsNorBrakes() {
    Bench bench = atFullSpeed(Lines.REFERENCE).fault("motor_open", true, 0);
    double from = bench.get("loco.position");
    bench.until("loco.speed", 0);
    assertEquals(0.194137, bench.get("loco.position") - from, 1e-6); // C3.9, as with power off
    assertEquals(0, bench.run(1).get("loco.current"));
  }

  @Test
  void heldTrainSlipsAtTheCurrentOfAdhesion() {
    // F3.7 [derived]: (F_f + mu m g) / k = (1.57511307 + 0.858082) / 26.2518844 A.
    String walled = Lines.between(Lines.FULL, -100, 0.251).replace("force: 2", "force: 50");
    Bench bench = new Bench(walled.substring(0, walled.indexOf("discharges:")), FINE);
    bench.set("feed.close", 1).run(3);
    assertEquals(0, bench.get("loco.speed"));
    assertEquals((1.57511307 + 0.858082) / 26.2518844, bench.get("loco.current"), 1e-6);
  }

  @Test
  void startingPullIsWhatAdhesionAllows() {
    // 0.858082 N at mu 0.25 (C3.9) less 0.2 N of rolling resistance on 0.95 kg.
    Bench bench = new Bench(Lines.FULL, FINE).set("feed.close", 1).run(0.1);
    assertEquals((0.858082 - 0.2) / 0.95 * 0.1, bench.get("loco.speed"), 1e-6);
  }

  @Test
  void greasyRailStallsARunningTrain() {
    // 0.2 of 0.858082 N (C3.9) do not keep up 0.2 N: it loses 0.0299 m/s a second [computed].
    Bench bench = atFullSpeed(Lines.FULL).fault("wheel_slip", true, 0.2);
    double from = bench.get("loco.speed");
    bench.run(1);
    assertEquals((0.2 - 0.2 * 0.858082) / 0.95, from - bench.get("loco.speed"), 1e-6);
    assertEquals(0, bench.run(14).get("loco.speed"));
    assertEquals((1.57511307 + 0.2 * 0.858082) / 26.2518844, bench.get("loco.current"), 1e-6);
  }

  @Test
  void greasyRailTakesThePullAway() {
    Bench bench = new Bench(Lines.FULL, FINE).fault("wheel_slip", true, 0.2);
    bench.set("feed.close", 1).run(1);
    assertEquals(0, bench.get("loco.speed")); // 0.17 N do not overcome 0.2 N
    bench.fault("wheel_slip", false, 0).run(1);
    assertTrue(bench.get("loco.speed") > 0.3);
  }

  @Test
  void theMainContactorInSeriesCutsTheFeed() {
    Bench bench = new Bench(Lines.REFERENCE, FINE).set("feed.close", 1).run(1);
    double fast = bench.get("loco.speed");
    bench.set("feed.enable", 0).run(0.1);
    assertEquals(0, bench.get("loco.current"));
    assertTrue(bench.get("loco.speed") < fast);
  }
}
