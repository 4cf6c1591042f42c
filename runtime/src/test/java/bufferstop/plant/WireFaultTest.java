package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Lost pulses, contacts of relays, and quantities that are read wrong; steps of 1 ms. */
class WireFaultTest {
  private static final long STEP_MICROS = 1000;

  private static WireRun wire(long seed, boolean bool, double before) {
    WireRun wire = new WireRun("w", bool, new SeededStream(seed, "wire.w"));
    wire.deliver(before);
    return wire;
  }

  private static WireRun faulty(long seed, WireFaultMode mode, double value, double before) {
    WireRun wire = wire(seed, mode.fits(true), before);
    wire.begin(mode.make(new WireFaultMode.Parameters(value, 0, STEP_MICROS, wire.random())), null);
    return wire;
  }

  private static String deliver(WireRun wire, String values) {
    StringBuilder arrived = new StringBuilder();
    for (char value : values.toCharArray()) {
      arrived.append((int) wire.deliver(value - '0'));
    }
    return arrived.toString();
  }

  // Source: reed contacts welded or magnetised, relay output that fails to close, rail-and-sensors
  // 8.3, rows stuck on and stuck off [project choice].
  @ParameterizedTest(name = "{0} after {1}: {2} arrives as {3}")
  @CsvSource({
    "WELDED, 0, 001100, 001111", // opens no more once it has closed
    "WELDED, 1, 001100, 111111",
    "WELDED, 0, 000000, 000000", // never closes by itself
    "NOT_CLOSING, 1, 110011, 110000", // closes no more once it has opened
    "NOT_CLOSING, 0, 110011, 000000",
    "NOT_CLOSING, 1, 111111, 111111", // never opens by itself
  })
  void keepsAContactFromMoving(WireFaultMode mode, int before, String values, String arrives) {
    assertEquals(arrives, deliver(faulty(1, mode, Double.NaN, before), values));
  }

  @ParameterizedTest(name = "{0} after {1} moves again at once")
  @CsvSource({"WELDED, 0", "NOT_CLOSING, 1"})
  void letsAContactGoWhenItEnds(WireFaultMode mode, int before) {
    WireRun wire = faulty(1, mode, Double.NaN, before);
    deliver(wire, "0110");
    wire.clear();
    assertEquals("0110", deliver(wire, "0110"));
  }

  @ParameterizedTest(name = "chance {0} after {1}: {2} arrives as {3}")
  @CsvSource({
    "0, 0, 0110100, 0110100",
    "1, 0, 0110100, 0000000",
    "1, 1, 1101100, 1100000", // the pulse that was there at the onset is not one to lose
  })
  void losesPulsesWithACertainChance(double chance, int before, String values, String arrives) {
    assertEquals(arrives, deliver(faulty(1, WireFaultMode.MISSED, chance, before), values));
  }

  /** Pulses of 1 to 3 steps with a pause of one; the share that arrived, all of them whole. */
  private static int arrived(long seed, double chance, int pulses) {
    WireRun wire = faulty(seed, WireFaultMode.MISSED, chance, 0);
    int arrived = 0;
    for (int i = 0; i < pulses; i++) {
      String pulse = "1".repeat(1 + i % 3);
      String seen = deliver(wire, pulse);
      assertTrue(seen.equals(pulse) || seen.equals("0".repeat(pulse.length())), "cut: " + seen);
      arrived += seen.equals(pulse) ? 1 : 0;
      assertEquals("0", deliver(wire, "0"));
    }
    return arrived;
  }

  // binomial: of 20 000 pulses, n p and four standard deviations sqrt(n p (1 - p))
  @ParameterizedTest(name = "chance {0}, seed {3}")
  @CsvSource({
    "0.5, 10000, 282.8, 1",
    "0.5, 10000, 282.8, 2",
    "0.1, 18000, 169.7, 3",
    "NaN, 10000, 282.8, 4", // the chance when none is given
  })
  void losesPulsesWholeAtItsMeanRate(double chance, double arrive, double within, long seed) {
    assertEquals(arrive, arrived(seed, chance, 20_000), within);
  }

  private static String thinned(long seed) {
    return deliver(faulty(seed, WireFaultMode.MISSED, 0.5, 0), "01".repeat(200));
  }

  @Test
  void losesTheSamePulsesWithOneSeedAndOthersWithAnother() {
    assertEquals(thinned(1), thinned(1));
    assertNotEquals(thinned(1), thinned(2));
  }

  @ParameterizedTest(name = "{0} a second")
  @ValueSource(doubles = {0.5, -2, 1000, 0})
  void driftsAlongALine(double perSecond) {
    WireRun wire = faulty(1, WireFaultMode.DRIFT, perSecond, 7);
    for (int step = 1; step <= 5000; step++) {
      double value = 7 + step % 10;
      assertEquals(value + step * (perSecond * STEP_MICROS / 1e6), wire.deliver(value));
    }
  }

  @Test
  void hasDriftedByItsValueAfterASecond() {
    WireRun wire = faulty(1, WireFaultMode.DRIFT, 0.25, 0);
    for (int step = 1; step < 1000; step++) {
      wire.deliver(0);
    }
    assertEquals(0.25, wire.deliver(0), 1e-15);
  }

  // evenly spread over 0.5 either side: standard deviation 1/sqrt(12), of the mean of 40 000
  // 0.001443; four of them
  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3})
  void scattersAroundTheTruthWithinItsBounds(long seed) {
    WireRun wire = faulty(seed, WireFaultMode.NOISE, 0.5, 3);
    double sum = 0;
    double least = Double.MAX_VALUE;
    double greatest = -Double.MAX_VALUE;
    for (int i = 0; i < 40_000; i++) {
      double seen = wire.deliver(3);
      sum += seen;
      least = Math.min(least, seen);
      greatest = Math.max(greatest, seen);
    }
    assertEquals(3, sum / 40_000, 4 * 0.001443);
    assertTrue(least >= 2.5 && least < 2.505, "least " + least);
    assertTrue(greatest <= 3.5 && greatest > 3.495, "greatest " + greatest);
  }

  @Test
  void scattersAlikeWithOneSeedAndOtherwiseWithAnother() {
    WireRun one = faulty(1, WireFaultMode.NOISE, 1, 0);
    WireRun same = faulty(1, WireFaultMode.NOISE, 1, 0);
    WireRun other = faulty(2, WireFaultMode.NOISE, 1, 0);
    for (int i = 0; i < 100; i++) {
      double seen = one.deliver(i);
      assertEquals(seen, same.deliver(i));
      assertNotEquals(seen, other.deliver(i));
    }
  }

  @ParameterizedTest(name = "{1} times {0}")
  @CsvSource({"2, 3, 6", "0.1, 5, 0.5", "-1, 4, -4", "0, 4, 0"})
  void readsTheTruthTimesAFactor(double factor, double value, double arrives) {
    assertEquals(arrives, faulty(1, WireFaultMode.WRONG_SCALE, factor, 1).deliver(value), 1e-15);
  }
}
