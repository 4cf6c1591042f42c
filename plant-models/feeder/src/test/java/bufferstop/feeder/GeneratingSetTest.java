package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** A generating set: droop, regulator, short circuit, load rejection, its own trips. */
class GeneratingSetTest {
  private static String settings(String extra) {
    return """
    volts: 400
    generator:
      rating: 30000
    """
        + extra.indent(2)
        + """
        lines:
          l1:
            from: source
            to: end
            length: 10
            resistance: 0.3
        breakers:
          b1:
            line: l1
        loads:
          base:
            node: source
            kind: impedance
            power: 3000
          town:
            node: end
            kind: impedance
            power: 21000
        faults:
          f:
            line: l1
            joins: abcn
        """;
  }

  @Test
  void frequencyFallsByItsDroop() {
    Bench bench = new Bench(settings("droop: 0.04")).run(60);
    double torque = bench.get("source.watts") / 30_000 / (bench.get("source.hertz") / 50);
    assertEquals(50 * (1 - 0.04 * torque), bench.get("source.hertz"), 0.001);
    assertEquals(400 / Math.sqrt(3), bench.get("node.source.volts_a"), 0.5);
  }

  @Test
  void restoringBringsFrequencyBack() {
    Bench bench = new Bench(settings("restore_time: 5")).run(120);
    assertEquals(50, bench.get("source.hertz"), 0.02);
  }

  /** After a load is thrown off at constant torque, df/dt = f dP / (2 H S) at first. */
  @Test
  void rejectedLoadSpeedsItUpByItsInertia() {
    Bench bench = new Bench(settings("inertia: 1\ngovernor_time: 10")).run(120);
    double before = bench.get("source.hertz");
    double thrown = bench.get("source.watts");
    bench.set("breaker.b1.open", 1).until("breaker.b1.contact_b", 1);
    thrown -= bench.get("source.watts");
    double at = bench.get("source.hertz");
    bench.run(0.2);
    double slope = (bench.get("source.hertz") - at) / 0.2;
    assertEquals(50 * thrown / (2 * 1 * 30_000), slope, 0.12 * slope);
    assertTrue(at >= before - 0.01);
  }

  @Test
  void rejectedLoadOfAWeakGovernorTripsOnOverspeed() {
    Bench bench = new Bench(settings("inertia: 0.5\ngovernor_time: 3\noverfrequency: 54")).run(0.5);
    bench.set("breaker.b1.open", 1).run(5);
    assertEquals(1081, bench.get("source.cause"));
    assertEquals(0, bench.get("source.running"));
    assertEquals(0, bench.get("node.source.volts_a"), 1e-9);
    assertEquals(1, bench.count("source.overfrequency"));
  }

  @Test
  void overloadTripsOnLowFrequency() {
    String heavy = settings("inertia: 0.5\nundervoltage: 0.3\novercurrent: 10");
    Bench bench = new Bench(heavy.replace("power: 21000", "power: 33000")).run(30);
    assertEquals(81, bench.get("source.cause"), () -> "" + bench.happened());
  }

  @Test
  void tripIsKeptUntilResetAndNothingStartsByItself() {
    Bench bench = new Bench(settings("overcurrent: 1.2\novercurrent_delay: 0.3")).run(5);
    bench.fault("f", true).run(3);
    assertEquals(51, bench.get("source.cause"));
    bench.fault("f", false).run(30);
    assertEquals(0, bench.get("source.running"));
    bench.set("source.start", 1).run(10).set("source.start", 0);
    assertEquals(0, bench.get("source.running"), "the trip stands");
    bench.set("source.reset", 1).run(10).set("source.reset", 0);
    assertEquals(0, bench.get("source.running"), "a reset starts nothing");
    bench.set("source.start", 1).run(10);
    assertEquals(1, bench.get("source.running"));
    assertEquals(0, bench.get("source.cause"));
  }

  /** From E / X' at once towards the ceiling of the field over Xd. */
  @Test
  void shortCircuitFadesFromTheTransientReactance() {
    Bench bench =
        new Bench(
                settings(
                    "resistance: 0\ntransient_reactance: 0.2\nsynchronous_reactance: 2\n"
                        + "field_time: 1\novercurrent: 20\nundervoltage: 0"))
            .run(20);
    String line = "line.l1.amperes_a";
    bench.fault("f", true).run(0.002);
    double rated = 30_000 / Math.sqrt(3) / 400;
    double first = bench.get(line) / rated;
    assertTrue(first > 4.5 && first < 5.7, "about E / X': " + first);
    bench.run(3);
    double later = bench.get(line) / rated;
    assertTrue(later > 1.3 && later < 1.7, "about 3 / Xd: " + later);
  }

  @Test
  void failedEngineStopsIt() {
    Bench bench = new Bench(settings("")).run(5).fault("source.engine_fails", true).run(10);
    assertEquals(0, bench.get("source.running"));
    assertEquals(0, bench.get("node.end.volts_a"), 1e-9);
  }
}
