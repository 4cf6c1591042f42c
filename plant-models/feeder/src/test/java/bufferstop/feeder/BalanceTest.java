package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Energy of source, meters and resistances, each worked out apart; coarse steps beside fine ones.
 */
class BalanceTest {
  private static final String TWO =
      """
      volts: 400
      grid:
        short_circuit_power: 2000000
        r_over_x: 0.5
      lines:
        l1:
          from: source
          to: middle
          length: 100
          resistance: 0.5
          reactance: 0.1
        l2:
          from: middle
          to: end
          length: 50
          resistance: 1.15
          reactance: 0.08
      loads:
        houses:
          node: middle
          kind: power
          power: 4000
          power_factor: 0.97
        tram:
          node: end
          kind: rectifier
          phases: ab
          power: 4000
          power_factor: 0.96
          spectrum:
            h3:
              order: 3
              share: 0.4
              angle: 170
            h5:
              order: 5
              share: 0.2
              angle: -20
      meters:
        houses:
          load: houses
        tram:
          load: tram
      """;

  private static double sum(Bench bench) {
    return bench.get("meter.houses.imported")
        + bench.get("meter.tram.imported")
        + bench.get("network.lost");
  }

  /** Conservation of energy: the source gives what meters count and resistances turn into heat. */
  @Test
  void whatTheSourceGivesIsMeteredOrLost() {
    Bench bench = new Bench(TWO, 10_000, 1);
    for (int i = 0; i < 60; i++) {
      bench.set("load.houses.share", i / 60.0).set("load.tram.share", 1 - i / 120.0).run(10);
    }
    double given = bench.get("source.supplied");
    assertTrue(given > 700, () -> "" + given);
    assertTrue(bench.get("network.lost") > 0.005 * given);
    assertEquals(given, sum(bench), 2e-6 * given);
  }

  /** Quasi-steady loads: a step of a minute comes to what steps of 10 ms come to. */
  @ParameterizedTest(name = "{0} us")
  @CsvSource({"1000000", "60000000"})
  void coarseStepsComeToWhatFineOnesComeTo(long stepMicros) {
    Bench fine = new Bench(TWO, 10_000, 1);
    Bench coarse = new Bench(TWO, stepMicros, 1);
    for (int i = 0; i < 10; i++) {
      for (Bench each : new Bench[] {fine, coarse}) {
        each.set("load.houses.share", 0.1 + 0.08 * i).set("load.tram.share", i % 3 / 2.0);
        each.run(60);
      }
    }
    for (String port :
        new String[] {
          "meter.houses.imported",
          "meter.tram.imported",
          "meter.tram.apparent_imported",
          "meter.tram.reactive_1",
          "network.lost",
          "source.supplied"
        }) {
      // what is noticed of a load, 1e-4, and half a cycle at each of ten changes
      assertEquals(fine.get(port), coarse.get(port), 3e-4 * fine.get(port), port);
    }
  }

  /** Closed form: constant load on a stiff source for 30 days of 60 s steps. */
  @Test
  void energyOfAMonthIsPowerTimesTime() {
    String stiff = TWO.replace("power: 2000000", "power: 1000000000000").replace("0.5\n", "0\n");
    stiff =
        stiff
            .replace("reactance: 0.1", "reactance: 0")
            .replace("resistance: 1.15", "resistance: 0");
    stiff = stiff.replace("reactance: 0.08", "reactance: 0");
    Bench bench = new Bench(stiff, 60_000_000, 1).run(30 * 86_400);
    assertEquals(720 * 4000.0, bench.get("meter.houses.imported"), 0.05);
    assertEquals(720 * 4000.0, bench.get("meter.tram.imported"), 0.05);
    double thd = Math.sqrt(0.16 + 0.04); // S = P1 / PF1 sqrt(1 + THD^2), section 5.1
    double single = 720 * 4000 / 0.96 * Math.sqrt(1 + thd * thd);
    double apparent = bench.get("meter.tram.apparent_imported") / single;
    // two conductors of a four-wire meter: Ve Ie of three phases for a load between two lines
    assertEquals(3 / Math.sqrt(3) * Math.sqrt(2.0 / 3), apparent, 1e-6);
  }

  @Test
  void aLoadTakesTheShareOfItsPowerThatItsPortSays() {
    Bench bench = new Bench(TWO).run(1);
    double whole = bench.get("load.houses.watts");
    assertEquals(
        0.25 * whole,
        bench.set("load.houses.share", 0.25).run(1).get("load.houses.watts"),
        0.01 * whole);
    assertEquals(0, bench.set("load.houses.share", 0).run(1).get("load.houses.watts"));
  }

  @Test
  void aMeterWithoutVoltageSaysSo() {
    Bench bench = new Bench(TWO).run(1);
    assertEquals(0, bench.get("meter.houses.power_failed"));
    assertEquals(400, bench.get("meter.houses.volts_ab"), 12);
    assertEquals(
        bench.get("meter.houses.volts_line"), Math.sqrt(3) * bench.get("meter.houses.volts"), 1);
    bench.fault("source.lost", true).run(1);
    assertEquals(1, bench.get("meter.houses.power_failed"));
  }
}
