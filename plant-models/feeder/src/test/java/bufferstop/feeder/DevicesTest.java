package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Fuses, miniature breakers, conductors and coils. */
class DevicesTest {
  private static String line(double ohms) {
    return """
    volts: 400
    grid:
      short_circuit_power: 1000000000000
    lines:
      l1:
        from: source
        to: end
        length: 1
        resistance: 0
        conductor_area: 16
    faults:
      f:
        line: l1
        joins: abcn
        resistance: %s
    """
        .formatted(ohms);
  }

  private static double ohmsFor(double amperes) {
    return 400 / Math.sqrt(3) / amperes;
  }

  /** Reference, section 4.7: 1600 A, 16 mm2 of copper in PVC, limit 3.3856e6 A2s [computed]. */
  @Test
  void conductorIsDamagedByItsLimit() {
    Bench bench = new Bench(line(ohmsFor(1600))).fault("f", true);
    double found = bench.until("line.l1.damaged", 1);
    assertEquals(1.3225, found, 0.002);
    assertEquals(1, bench.get("line.l1.heat"), 0.002);
    bench.until("line.l1.broken", 1);
    assertEquals((288.0 * 16) * (288.0 * 16) / (1600.0 * 1600), bench.now(), 0.002);
    assertEquals(0, bench.run(0.1).get("line.l1.amperes_a"), 1e-6);
  }

  @Test
  void conductorCoolsBelowItsContinuousCurrent() {
    String settings =
        line(ohmsFor(1600)).replace("area: 16\n", "area: 16\n    continuous_current: 800\n");
    Bench bench = new Bench(settings).fault("f", true).run(1);
    double hot = bench.get("line.l1.heat");
    assertEquals(1600.0 * 1600 - 800.0 * 800, hot * 3385600, 10_000);
    bench.fault("f", false).run(2);
    assertEquals(hot - 2 * 800.0 * 800 / 3385600, bench.get("line.l1.heat"), 0.001);
  }

  /** Bands of IEC 60898-1 [seen second-hand], times [from memory, not re-read]. */
  @ParameterizedTest(name = "type {0}, 32 A")
  @CsvSource({"b, 96, 160", "c, 160, 320", "d, 320, 640"})
  void miniatureBreakerKeepsItsBand(String type, double no, double must) {
    String mcb = "mcbs:\n  m1:\n    line: l1\n    rating: 32\n    type: " + type + "\n";
    for (long seed = 1; seed <= 5; seed++) {
      Bench holds = new Bench(line(ohmsFor(no - 0.1)) + mcb, 1000, seed).fault("f", true).run(0.1);
      assertEquals(1, holds.get("mcb.m1.closed"), "must not trip in 0.1 s");
      Bench trips = new Bench(line(ohmsFor(must + 0.1)) + mcb, 1000, seed).fault("f", true);
      assertTrue(trips.until("mcb.m1.closed", 0) < 0.1, "must trip in less than 0.1 s");
    }
  }

  @Test
  void miniatureBreakerTripsThermallyInItsTimes() {
    String mcb = "mcbs:\n  m1:\n    line: l1\n    rating: 32\n    type: d\n";
    double at255 =
        new Bench(line(ohmsFor(2.55 * 32)) + mcb).fault("f", true).until("mcb.m1.closed", 0);
    assertTrue(at255 > 1 && at255 < 60, "2.55 In: " + at255);
    Bench held = new Bench(line(ohmsFor(1.13 * 32)) + mcb, 100_000, 1).fault("f", true).run(3600);
    assertEquals(1, held.get("mcb.m1.closed"), "1.13 In does not trip in an hour");
    held = new Bench(line(ohmsFor(1.45 * 32)) + mcb, 100_000, 1).fault("f", true).run(3600);
    assertEquals(0, held.get("mcb.m1.closed"), "1.45 In trips within the hour");
  }

  private static final String FUSE =
      """
      fuses:
        f1:
          line: l1
          rating: 100
          arcing_time: 0
          curve:
            low:
              current: 160
              time: 1000
            middle:
              current: 500
              time: 5
            high:
              current: 2000
              time: 0.02
      """;

  @ParameterizedTest(name = "{0} A melt it after {1} s")
  @CsvSource({"500, 5", "1000, 0.316228", "2000, 0.02", "4000, 0.00126491"})
  void fuseMeltsAlongItsCurve(double amperes, double seconds) {
    // straight on logarithmic scales: from 500 to 2000 A the exponent is log(250)/log(4)
    double exponent = Math.log(250) / Math.log(4);
    double expected = 5 * Math.pow(500 / amperes, exponent);
    assertEquals(expected, seconds, 1e-5 * Math.max(seconds, 0.3));
    Bench bench = new Bench(line(ohmsFor(amperes)) + FUSE).fault("f", true);
    assertEquals(expected, bench.until("fuse.f1.blown", 1), 0.0015);
    assertEquals(0, bench.run(0.01).get("line.l1.amperes_a"), 1e-6);
  }

  @Test
  void fuseOfOnePhaseBlowsAlone() {
    String settings = line(ohmsFor(1000)).replace("joins: abcn", "joins: bn") + FUSE;
    Bench bench = new Bench(settings).fault("f", true);
    bench.until("fuse.f1.blown", 1);
    bench.run(0.01);
    assertEquals(0, bench.get("node.end.volts_b"), 0.1);
    assertEquals(230.94, bench.get("node.end.volts_a"), 0.01);
    bench.fault("f", false).set("fuse.f1.replace", 1).run(0.01);
    assertEquals(230.94, bench.get("node.end.volts_b"), 0.01);
    assertEquals(0, bench.get("fuse.f1.blown"));
  }

  @Test
  void coilLetsGoAfterItsTimeAndPullsInAgain() {
    String coil = "coils:\n  k1:\n    node: end\n";
    Bench bench = new Bench(line(1) + coil).run(0.1);
    assertEquals(1, bench.get("coil.k1"));
    bench.fault("source.dip", true, 0.4).run(0.014);
    assertEquals(1, bench.get("coil.k1"), "a dip shorter than its time passes");
    bench.run(0.001);
    assertEquals(0, bench.get("coil.k1"));
    bench.fault("source.dip", true, 0.8).run(1);
    assertEquals(0, bench.get("coil.k1"), "0.8 of its voltage does not pull it in");
    bench.fault("source.dip", false).run(0.03);
    assertEquals(1, bench.get("coil.k1"));
  }
}
