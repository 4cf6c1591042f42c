package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** An island with a motor: steps of seconds and minutes come to what milliseconds come to. */
class CoarseStepTest {
  private static final String ISLAND =
      """
      volts: 400
      source_node: works
      generator:
        rating: 15000
        inertia: 1.5
        droop: 0.03
        governor_time: 0.2
        synchronous_reactance: 1.2
        undervoltage: 0.7
        undervoltage_delay: 6
      lines:
        l1:
          from: works
          to: press
          length: 20
          resistance: 1.15
          reactance: 0.08
        l2:
          from: works
          to: village
          length: 250
          resistance: 1.15
          reactance: 0.1
      loads:
        press:
          node: press
          kind: motor
          power: 1500
          power_factor: 0.8
          start_current: 5
        houses:
          node: village
          kind: power
          power: 4000
          power_factor: 0.97
      meters:
        press:
          load: press
        houses:
          load: houses
      """;

  private static void day(Bench bench) {
    bench.set("load.press.on", 0).set("load.houses.share", 0.2).run(120);
    bench.set("load.press.on", 1).set("load.houses.share", 0.9).run(240);
    bench.set("load.houses.share", 0.5).run(240);
  }

  @ParameterizedTest(name = "{0} us")
  @ValueSource(longs = {1_000_000, 60_000_000})
  void energyVoltageAndFrequencyAreThoseOfFineSteps(long stepMicros) {
    Bench fine = new Bench(ISLAND, 2_000, 1);
    Bench coarse = new Bench(ISLAND, stepMicros, 1);
    day(fine);
    day(coarse);
    assertEquals(1, coarse.get("source.running"));
    assertEquals(fine.get("source.hertz"), coarse.get("source.hertz"), 0.001);
    assertEquals(fine.get("load.press.speed"), coarse.get("load.press.speed"), 1e-5);
    assertEquals(fine.get("node.village.volts_a"), coarse.get("node.village.volts_a"), 0.05);
    double houses = fine.get("meter.houses.imported");
    assertEquals(4000 * (0.2 * 120 + 0.9 * 240 + 0.5 * 240) / 3600, houses, 0.01 * houses);
    assertEquals(houses, coarse.get("meter.houses.imported"), 2e-3 * houses);
    double press = fine.get("meter.press.imported");
    assertTrue(press > 150, () -> "" + press);
    // what the run-up itself takes is less than a step of a minute shows
    assertEquals(press, coarse.get("meter.press.imported"), 0.01 * press);
  }

  @ParameterizedTest(name = "{0} us")
  @ValueSource(longs = {1_000_000, 60_000_000})
  void aSetThatIsStartedComesUpAndCarriesItsLoad(long stepMicros) {
    Bench bench = new Bench(ISLAND, stepMicros, 1).run(120);
    bench.set("source.stop", 1).run(120);
    assertEquals(0, bench.get("source.running"));
    assertEquals(0, bench.get("node.village.volts_a"));
    bench.set("source.stop", 0).set("source.start", 1).run(300);
    assertEquals(1, bench.get("source.running"));
    assertEquals(230, bench.get("node.village.volts_a"), 8);
  }
}
