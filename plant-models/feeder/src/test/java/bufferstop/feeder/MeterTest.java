package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Meters: windows, registers and demand, against hand-made cases and against samples. */
class MeterTest {
  private static final String METER =
      """
      volts: 400
      grid:
        short_circuit_power: 2000000
        r_over_x: 0.5
      lines:
        l1:
          from: source
          to: end
          length: 100
          resistance: 0.5
          reactance: 0.1
      loads:
        heater:
          node: end
          kind: impedance
          power: 3000
        tram:
          node: end
          kind: rectifier
          phases: b
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
            h7:
              order: 7
              share: 0.1
              angle: 60
      meters:
        tramway:
          load: tram
        whole:
          line: l1
      """;

  /**
   * Voltage and current of phase b rebuilt as samples; sums over ten cycles are what a meter does.
   */
  @Test
  void agreesWithSamples() {
    Bench bench = new Bench(METER).run(1);
    Network n = bench.network;
    int node = n.tree.node("end");
    double vv = 0;
    double ii = 0;
    double vi = 0;
    int samples = 2560;
    for (int k = 0; k < samples; k++) {
      double t = 10 * 2 * Math.PI * k / samples;
      double v = moment(n.v, node, 1, t);
      double i = moment(n.flow, node, 1, t);
      for (int h = 0; h < n.spectrum().count(); h++) {
        v += moment(n.spectrum().volts(h), node, n.spectrum().order(h), t);
        i += moment(n.spectrum().flow(h), node, n.spectrum().order(h), t);
      }
      vv += v * v;
      ii += i * i;
      vi += v * i;
    }
    assertEquals(Math.sqrt(vv / samples), bench.get("meter.whole.volts_b"), 1e-9);
    assertEquals(Math.sqrt(ii / samples), bench.get("meter.whole.amperes_b"), 1e-9);
    double others = 0;
    for (int p : new int[] {0, 2}) {
      int at = Phasors.VECTOR * node + 2 * p;
      others += n.v[at] * n.flow[at] + n.v[at + 1] * n.flow[at + 1];
      for (int h = 0; h < n.spectrum().count(); h++) {
        double[] v = n.spectrum().volts(h);
        double[] i = n.spectrum().flow(h);
        others += v[at] * i[at] + v[at + 1] * i[at + 1];
      }
    }
    assertEquals(vi / samples + others, bench.get("meter.whole.watts"), 1e-6);
  }

  /** Phase b. */
  private static double moment(double[] phasors, int node, int order, double t) {
    int at = Phasors.VECTOR * node + 2;
    return Math.sqrt(2)
        * (phasors[at] * Math.cos(order * t) - phasors[at + 1] * Math.sin(order * t));
  }

  @Test
  void rectifierHasGoodDisplacementAndBadTruePowerFactor() {
    String stiff = METER.replace("power: 2000000", "power: 1000000000000").replace("0.5\n", "0\n");
    Bench bench = new Bench(stiff.replace("reactance: 0.1", "reactance: 0")).run(1);
    assertEquals(0.96, bench.get("meter.tramway.displacement_factor"), 1e-6);
    double thd = Math.sqrt(0.16 + 0.04 + 0.01);
    assertEquals(thd, bench.get("meter.tramway.thd_amperes"), 1e-6);
    // P / S with a voltage that is a sine: PF1 / sqrt(1 + THDI^2), section 5.1
    assertEquals(
        0.96 / Math.sqrt(1 + thd * thd), bench.get("meter.tramway.power_factor"), 0.000001);
    double voltage = new Bench(METER).run(1).get("meter.tramway.thd_volts");
    assertTrue(voltage > 0.001 && voltage < 0.05, "harmonic voltage over the line: " + voltage);
  }

  @Test
  void powerOfTheSourceIsThatOfTheLoadsAndLosses() {
    Bench bench = new Bench(METER).run(1);
    double loads = bench.get("load.heater.watts") + bench.get("load.tram.watts");
    double losses = 0;
    Network n = bench.network;
    for (int b = 1; b < n.tree.size(); b++) {
      double re = 0;
      double im = 0;
      for (int p = 0; p < 3; p++) {
        int at = Phasors.VECTOR * b + 2 * p;
        losses += n.tree.branch(b).ohms() * Phasors.square(n.flow, at);
        re += n.flow[at];
        im += n.flow[at + 1];
      }
      losses += n.tree.branch(b).returnOhms() * (re * re + im * im);
    }
    assertEquals(loads + losses, bench.get("source.watts"), 0.01);
  }

  @Test
  void reversedTransformerExports() {
    Bench bench = new Bench(METER + "    polarity: reversed\n").run(3600 * 0.01);
    double watts = bench.get("meter.whole.watts");
    assertTrue(watts < -6000, () -> "" + watts);
    assertEquals(0, bench.get("meter.whole.imported"));
    assertEquals(-watts * 0.01, bench.get("meter.whole.exported"), 0.001);
    assertTrue(bench.get("meter.whole.power_factor") < 0);
  }

  @Test
  void wrongRatioMultipliesEnergy() {
    Bench right = new Bench(METER).run(10);
    Bench wrong = new Bench(METER + "    ct_ratio: 40\n    ct_actual: 20\n").run(10);
    assertEquals(2 * right.get("meter.whole.imported"), wrong.get("meter.whole.imported"), 1e-6);
  }

  @Test
  void errorIsDrawnOnceWithinTheClass() {
    String classed = METER + "    accuracy: 1\n";
    double right = new Bench(METER).run(1).get("meter.whole.watts");
    double first = new Bench(classed, 1000, 1).run(1).get("meter.whole.watts") / right - 1;
    double again = new Bench(classed, 1000, 1).run(1).get("meter.whole.watts") / right - 1;
    double other = new Bench(classed, 1000, 2).run(1).get("meter.whole.watts") / right - 1;
    assertEquals(first, again);
    assertTrue(first != other && Math.abs(first) <= 0.01 && Math.abs(other) <= 0.01);
  }

  /** Section 5.6: 36 000 additions of 184 J give exactly 0.00184 MWh, and pulses lose nothing. */
  @Test
  void registersAddWithoutLoss() {
    Registers registers = new Registers();
    for (int i = 0; i < 36_000; i++) {
      registers.add(1840, 0, 0, 100_000);
    }
    assertEquals(1840.0, registers.imported());
    assertEquals(0, registers.exported());
  }

  @Test
  void quadrantsFollowTheSigns() {
    Registers registers = new Registers();
    registers.add(1, 2, 6, 3_600_000_000L);
    registers.add(-1, 3, 7, 3_600_000_000L);
    registers.add(-1, -4, 8, 3_600_000_000L);
    registers.add(1, -5, 9, 3_600_000_000L);
    assertEquals(2, registers.reactive(0));
    assertEquals(3, registers.reactive(1));
    assertEquals(4, registers.reactive(2));
    assertEquals(5, registers.reactive(3));
    assertEquals(2, registers.imported());
    assertEquals(2, registers.exported());
  }

  private static Demand fed(double startSeconds, double... kilowatts) {
    Demand demand = new Demand(900, 3, startSeconds);
    for (double each : kilowatts) {
      demand.add(1000 * each, 300_000_000L, true);
    }
    return demand;
  }

  /** Section 5.7, own check [computed]. */
  @Test
  void demandByBlockAndSliding() {
    double[] all = {30, 30, 120, 120, 120, 30, 30, 30, 30};
    double[] sliding = {60, 90, 120, 90, 60, 30, 30};
    double[] block = {60, 60, 60, 90, 90, 90, 30};
    for (int n = 3; n <= 9; n++) {
      Demand demand = fed(0, java.util.Arrays.copyOf(all, n));
      assertEquals(sliding[n - 3] * 1000, demand.sliding(), 1e-6);
      assertEquals(block[n - 3] * 1000, demand.block(), 1e-6);
    }
    Demand whole = fed(0, all);
    assertEquals(90_000, whole.mostBlock(), 1e-6);
    assertEquals(120_000, whole.mostSliding(), 1e-6);
    assertEquals(1800, whole.mostBlockSeconds());
  }

  @Test
  void thermalDemandShowsNinetyPercentAfterAnInterval() {
    double[] expected = {0.5358, 0.7846, 0.9, 0.9900, 0.9990};
    long[] minutes = {5, 10, 15, 30, 45};
    for (int i = 0; i < 5; i++) {
      Demand demand = new Demand(900, 3, 0);
      for (long s = 0; s < minutes[i] * 60; s++) {
        demand.add(1, 1_000_000, true);
      }
      assertEquals(expected[i], demand.thermal(), 0.00005);
    }
  }

  @Test
  void boundariesAreThoseOfTheClock() {
    Demand demand = fed(600, 30, 60, 60, 60); // starts at 00:10
    assertEquals(60_000, demand.block(), 1e-6); // 00:15 to 00:30
    assertEquals(60_000, demand.mostBlock(), 1e-6);
    assertEquals(1200, demand.mostBlockSeconds());
  }

  @Test
  void intervalCutByAnOutageMakesNoMaximum() {
    Demand demand = new Demand(900, 3, 0);
    demand.add(90_000, 800_000_000L, true);
    demand.add(0, 100_000_000L, false);
    assertEquals(80_000, demand.block(), 1e-6);
    assertEquals(0, demand.mostBlock());
  }
}
