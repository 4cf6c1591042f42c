package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Loads of all kinds, on a source that holds its voltage unless said otherwise. */
class LoadsTest {
  private static Bench bench(String load) {
    return new Bench(
        """
        volts: 400
        grid:
          short_circuit_power: 1000000000000
        loads:
          x:
            node: source
        """
            + load.indent(4));
  }

  @ParameterizedTest(name = "{0} at 0.8 of its voltage draws {1} of its power")
  @CsvSource({"impedance, 0.64", "current, 0.8", "power, 1"})
  void powerFollowsTheVoltageByKind(String kind, double share) {
    Bench bench = bench("kind: " + kind + "\npower: 9000\npower_factor: 0.9").run(0.05);
    assertEquals(9000, bench.get("load.x.watts"), 0.01);
    assertEquals(9000 / 0.9 / 3 / (400 / Math.sqrt(3)), bench.get("load.x.amperes"), 0.0001);
    bench.fault("source.dip", true, 0.8).run(0.05);
    assertEquals(share * 9000, bench.get("load.x.watts"), 0.01);
    assertEquals(share * 9000 * Math.tan(Math.acos(0.9)), bench.get("load.x.vars"), 0.01);
  }

  @Test
  void loadsBetweenLinesAndOfOnePhaseDrawTheirPower() {
    for (String phases : new String[] {"a", "b", "c", "ab", "bc", "ca", "abc"}) {
      Bench bench = bench("kind: impedance\npower: 1000\nphases: " + phases).run(0.01);
      assertEquals(1000, bench.get("load.x.watts"), 0.001, phases);
      assertEquals(1000, bench.get("source.watts"), 0.001, phases);
    }
  }

  @Test
  void motorDrawsRatedPowerAndItsStartingCurrent() {
    Bench bench = bench("kind: motor\npower: 5000\npower_factor: 0.85\nstart_current: 6").run(1);
    double rated = 5000 / 0.85 / 3 / (400 / Math.sqrt(3));
    assertEquals(5000, bench.get("load.x.watts"), 25);
    assertEquals(rated, bench.get("load.x.amperes"), 0.01 * rated);
    bench.set("load.x.on", 0).run(10);
    assertTrue(bench.get("load.x.speed") < 0.2, "runs down");
    bench.set("load.x.on", 1).run(0.02);
    double inrush = bench.get("load.x.amperes");
    assertTrue(inrush > 5.5 * rated && inrush < 6.5 * rated, inrush / rated + " times rated");
    bench.run(5);
    assertEquals(rated, bench.get("load.x.amperes"), 0.01 * rated);
  }

  @Test
  void motorOnAContactorStaysOffAfterALongDip() {
    String motor = "kind: motor\npower: 5000\npower_factor: 0.85\nrestarts: ";
    for (String restarts : new String[] {"TRUE", "FALSE"}) {
      Bench bench = bench(motor + restarts).run(0.1);
      bench.fault("source.dip", true, 0.2).run(0.2).fault("source.dip", false).run(5);
      assertEquals(restarts.equals("TRUE"), bench.get("load.x.watts") > 4000, restarts);
    }
  }

  @Test
  void coldLoadPicksUpAndFadesWithItsTimes() {
    Bench bench =
        bench("kind: power\npower: 9000\npick_up: 3\npick_up_build: 10\npick_up_decay: 20")
            .run(0.05);
    bench.fault("source.lost", true).run(100).fault("source.lost", false).run(0.01);
    assertEquals(27_000, bench.get("load.x.watts"), 30);
    bench.run(20);
    assertEquals(9000 * (1 + 2 * Math.exp(-1)), bench.get("load.x.watts"), 30);
  }

  @Test
  void rectifierGivesAVoltageThatFollowsItsOwn() {
    Bench bench =
        bench(
            "kind: rectifier\n"
                + "phases: a\n"
                + "power: 120\n"
                + "dc_volts: 12\n"
                + "dc_resistance: 0.5\n"
                + "multiplier: 2");
    bench.set("load.x.dc_amperes", 4).run(0.01);
    assertEquals(12 - 0.5 * 4, bench.get("load.x.dc_volts"), 1e-6);
    assertEquals(2 * 12 * 4, bench.get("load.x.watts"), 0.01);
    bench.fault("source.dip", true, 0.75).run(0.01);
    assertEquals(9 - 2, bench.get("load.x.dc_volts"), 1e-6);
    bench.set("load.x.dc_amperes", 0).run(0.01);
    assertEquals(0, bench.get("load.x.watts"), 1e-9);
  }

  /** Kirchhoff on random loads: what the source gives is what branches and loads take. */
  @Test
  void solutionConvergesOnAWeakNetwork() {
    java.util.Random random = new java.util.Random(7);
    for (int n = 0; n < 50; n++) {
      String kind = new String[] {"impedance", "current", "power", "motor"}[n % 4];
      double watts = 2000 + 10_000 * random.nextDouble();
      Bench bench =
          new Bench(
              Networks.LOW_VOLTAGE
                  + """
                  loads:
                    x:
                      node: end
                      kind: %s
                      power: %s
                      power_factor: 0.9
                  """
                      .formatted(kind, watts));
      bench.run(0.1);
      assertTrue(bench.network.passes() < 25, kind + " took " + bench.network.passes());
      double v = bench.get("node.end.volts_a");
      double i = bench.get("load.x.amperes");
      double p = bench.get("load.x.watts");
      double q = bench.get("load.x.vars");
      assertEquals(3 * v * i, Math.sqrt(p * p + q * q), 1e-6 * p, "seed 7, case " + n);
      assertEquals(i, bench.get("line.l1.amperes_b"), 1e-6 * i, "seed 7, case " + n);
    }
  }

  @Test
  void deltaKeepsEarthCurrentToItself() {
    String star =
        Networks.LOW_VOLTAGE
            + "loads:\n  x:\n    node: end\n    kind: impedance\n    phases: a\n"
            + "    power: 5000\n";
    String delta = star.replace("primary_winding: star", "primary_winding: delta");
    double earth = new Bench(star).run(0.1).get("line.t1.amperes_n");
    assertTrue(earth > 20);
    Bench bench = new Bench(delta).run(0.1);
    assertTrue(bench.get("line.t1.amperes_n") > 20, "far side");
    int source = bench.network.tree.node("source");
    double re = 0;
    double im = 0;
    for (int p = 0; p < 3; p++) {
      re += bench.network.flow[Phasors.VECTOR * source + 2 * p];
      im += bench.network.flow[Phasors.VECTOR * source + 2 * p + 1];
    }
    assertEquals(0, Math.hypot(re, im), 1e-9, "feeding side");
  }
}
