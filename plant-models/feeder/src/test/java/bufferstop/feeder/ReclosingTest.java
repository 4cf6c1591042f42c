package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Reclosing against the reference, section 3.7 [computed there from project choices 3.6]: curve IEC
 * B, 200 A, multiplier 0.2, fault 1600 A, break time 50 ms, closing 80 ms, dead times 1/3, 15, 45
 * s. A step is 1 ms, and what a relay or a breaker does takes effect at the end of one.
 */
class ReclosingTest {
  private static final double LATE = 0.004; // most steps that round up on the way

  private static final String FUNCTIONS =
      """
      time_overcurrent:
        pick_up: 1
        curve: iec_very_inverse
        multiplier: 0.2
      reclosing:
        shots: 3
        dead_time_1: 0.333333
        dead_time_2: 15
        dead_time_3: 45
        reclaim_time: 30
        fast_trips: 0
      """;

  /** A fault that draws 1600 A from 230.94 V. */
  private static String fault(String behaviour) {
    return """
    faults:
      f:
        line: l1
        place: 1
        joins: abcn
        resistance: 0.14433757
    """
        + behaviour.indent(4);
  }

  private static Bench bench(String functions, String behaviour) {
    return new Bench(Networks.relay(functions) + fault(behaviour));
  }

  private static void assertAt(double expected, double found, String what) {
    assertEquals(expected + LATE / 2, found, LATE / 2 + 1e-6, what);
  }

  @Test
  void permanentFaultEndsInLockoutAfterThreeShots() {
    Bench bench = bench(FUNCTIONS, "behaviour: permanent").fault("f", true);
    bench.until("relay.r1.lockout", 1);
    assertEquals(1600, bench.get("relay.r1.trip_amperes"), 0.5);
    double[][] table = {
      {0.3857, 0.4357, 0.7690, 0.8490},
      {1.2348, 1.2848, 16.2848, 16.3648},
      {16.7505, 16.8005, 61.8005, 61.8805},
      {62.2662, 62.3162}
    };
    for (int trip = 0; trip < 4; trip++) {
      double[] row = table[trip];
      assertAt(row[0], bench.at("relay.r1.time_overcurrent", trip + 1), "trip " + trip);
      assertAt(row[1], bench.at("breaker.b1.opened", trip + 1), "open " + trip);
      if (trip < 3) {
        assertAt(row[2], bench.at("relay.r1.reclose", trip + 1), "close command " + trip);
        assertAt(row[3], bench.at("breaker.b1.closed", trip + 1), "closed " + trip);
      }
    }
    assertEquals(4, bench.get("relay.r1.trips"));
    assertEquals(3, bench.get("relay.r1.recloses"));
    bench.run(60);
    assertEquals(4, bench.get("relay.r1.trips"), "nothing moves by itself after lockout");
    assertEquals(1, bench.get("breaker.b1.contact_b"));
  }

  @ParameterizedTest(name = "{0} fast trips let through {1} A2s")
  @CsvSource({"0, 4461700", "2, 2640500"})
  void fastTripsSpareTheLine(int fast, double letThrough) {
    String functions =
        FUNCTIONS.replace("fast_trips: 0", "fast_trips: " + fast)
            + "instantaneous:\n  pick_up: 4\n  delay: 0.03\n";
    String line = "    conductor_area: 100\n";
    String settings =
        (Networks.relay(functions) + fault("behaviour: permanent"))
            .replace("    resistance: 0\n", "    resistance: 0\n" + line);
    Bench bench = new Bench(settings).fault("f", true);
    bench.until("relay.r1.lockout", 1);
    double limit = (115.0 * 100) * (115.0 * 100);
    // four clearings, each up to a step late, of 1600 A
    double late = 4 * 0.002 * 1600 * 1600;
    assertEquals(letThrough + late / 2, bench.get("line.l1.heat") * limit, late / 2 + 200);
    if (fast > 0) {
      assertAt(0.0300, bench.at("relay.r1.instantaneous", 1), "first");
      assertAt(0.5233, bench.at("relay.r1.instantaneous", 2), "second");
      assertAt(16.0390, bench.at("relay.r1.time_overcurrent", 1), "third");
      assertAt(61.5548, bench.at("relay.r1.time_overcurrent", 2), "fourth");
    }
  }

  /** Case (a): gone while the line is dead. */
  @Test
  void faultThatIsGoneTakesOneTripOnly() {
    Bench bench = bench(FUNCTIONS, "behaviour: arc\ndead_time: 0.25").fault("f", true);
    bench.run(40);
    assertEquals(1, bench.get("relay.r1.trips"));
    assertAt(0.8490, bench.at("breaker.b1.closed", 1), "closed");
    assertAt(30.8490, bench.at("relay.r1.ready", 1), "ready");
  }

  /** Cases (b) and (c): a second fault within and after the reclaim time. */
  @ParameterizedTest(name = "second fault at {0} s gets shot {1}")
  @CsvSource({"20, 2", "35, 1"})
  void secondFaultContinuesOnlyWithinTheReclaimTime(double at, int shot) {
    Bench bench = bench(FUNCTIONS, "behaviour: arc\ndead_time: 0.25").fault("f", true);
    bench.run(at).fault("f", true);
    bench.until("breaker.b1.contact_b", 1);
    bench.until("breaker.b1.contact_a", 1);
    assertEquals(shot, bench.get("relay.r1.shot"));
  }

  /** Case (d): an arc at 11 kV needs 0.2164 s without voltage. */
  @ParameterizedTest(name = "dead time {0} s: {1} trips")
  @CsvSource({"0.10, 2", "0.15, 1"})
  void arcStrikesAgainWhenTheLineWasNotDeadForLongEnough(double dead, int trips) {
    assertEquals(0.2164, FaultData.deionisedSeconds(11_000, 50), 0.00005);
    String functions = FUNCTIONS.replace("dead_time_1: 0.333333", "dead_time_1: " + dead);
    Bench bench = bench(functions, "behaviour: arc\ndead_time: 0.2164").fault("f", true);
    bench.run(3);
    assertEquals(trips, bench.get("relay.r1.trips"));
  }

  /** Reference, section 3.4 [formula re-read, values computed]. */
  @ParameterizedTest(name = "{0} V: {1} ms at 50 Hz, {2} ms at 60 Hz")
  @CsvSource({
    "400, 210.2, 175.2",
    "11000, 216.4, 180.3",
    "12470, 217.2, 181.0",
    "25000, 224.5, 187.1",
    "34500, 230.0, 191.7",
    "220000, 337.5, 281.3",
    "400000, 441.9, 368.2"
  })
  void arcsTakeTheTimeOfTheFormula(double volts, double at50, double at60) {
    assertEquals(at50, 1000 * FaultData.deionisedSeconds(volts, 50), 0.05);
    assertEquals(at60, 1000 * FaultData.deionisedSeconds(volts, 60), 0.05);
  }

  @Test
  void openByHandIsNeverFollowedByAReclose() {
    Bench bench = bench(FUNCTIONS, "behaviour: permanent").run(0.1);
    bench.set("breaker.b1.open", 1).run(0.2).set("breaker.b1.open", 0).run(100);
    assertEquals(1, bench.get("relay.r1.lockout"));
    assertEquals(0, bench.get("relay.r1.recloses"));
    assertEquals(1, bench.get("breaker.b1.contact_b"));
  }

  @Test
  void openByHandEndsASequence() {
    Bench bench = bench(FUNCTIONS, "behaviour: permanent").fault("f", true);
    bench.until("relay.r1.state", 2);
    bench.set("breaker.b1.open", 1).run(0.1).set("breaker.b1.open", 0).run(60);
    assertEquals(1, bench.get("relay.r1.lockout"));
    assertEquals(0, bench.get("relay.r1.recloses"));
  }

  @Test
  void closeByHandOntoAFaultLocksOutAtOnce() {
    Bench bench = bench(FUNCTIONS, "behaviour: permanent").run(0.1);
    bench.set("breaker.b1.open", 1).run(0.2).set("breaker.b1.open", 0);
    bench.fault("f", true).run(1).set("breaker.b1.close", 1);
    bench.run(60);
    assertEquals(1, bench.get("relay.r1.trips"));
    assertEquals(0, bench.get("relay.r1.recloses"));
    assertEquals(1, bench.count("breaker.b1.closed"), "a held command closes once");
    assertEquals(1, bench.get("relay.r1.lockout"));
  }

  @Test
  void switchedOffReclosingLocksOutAtTheFirstTrip() {
    Bench bench = bench(FUNCTIONS, "behaviour: permanent").set("relay.r1.reclosing", 0);
    bench.fault("f", true).run(60);
    assertEquals(1, bench.get("relay.r1.trips"));
    assertEquals(1, bench.get("relay.r1.lockout"));
  }

  @Test
  void deadSourceIsWaitedFor() {
    String functions =
        FUNCTIONS
            + "vt:\n  primary: 400\n  secondary: 100\n"
            + "undervoltage:\n  pick_up: 40\n  delay: 1\n  trips: FALSE\n";
    Bench bench = bench(functions, "behaviour: arc\ndead_time: 0.25").fault("f", true);
    bench.until("breaker.b1.contact_b", 1);
    bench.fault("source.lost", true).run(5);
    assertEquals(0, bench.get("relay.r1.recloses"));
    assertEquals(2, bench.get("relay.r1.state"), "waits open");
    bench.fault("source.lost", false).run(0.2);
    assertEquals(1, bench.get("relay.r1.recloses"));
  }

  @Test
  void springThatIsNotChargedRefusesToClose() {
    String settings =
        Networks.relay(FUNCTIONS.replace("dead_time_2: 15", "dead_time_2: 2"))
            + fault("behaviour: permanent");
    Bench bench = new Bench(settings).fault("f", true);
    bench.until("relay.r1.lockout", 1);
    assertEquals(
        2, bench.get("relay.r1.trips"), "closed once, spring still charging at the second");
    assertEquals(1, bench.count("breaker.b1.close_refused"));
  }
}
