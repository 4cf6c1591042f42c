package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LoadingTest {
  // C7.1 [computed]: F7.1, form in C. Mankoc et al., Granular Matter 9 (2007) [re-read], constants
  // [from memory, not re-read].
  @ParameterizedTest(name = "orifice {0} m, grain {1} m, {2} kg/m3: {3} kg/s")
  @CsvSource({
    "0.008, 0.0005, 1500, 0.012404714",
    "0.010, 0.001, 1500, 0.018686403",
    "0.015, 0.002, 1500, 0.044789805",
    "0.30, 0.020, 1600, 112.132260",
    "0.50, 0.030, 1600, 412.545647",
    "1.00, 0.050, 900, 1363.446848"
  })
  void orificeGivesTheFlow(double orifice, double grain, double density, double flow) {
    assertEquals(flow, Hopper.orificeFlow(orifice, grain, density), 1e-6 * flow);
  }

  @Test
  void orificeFillsSixtyGramsInTheTimeOfTheReference() {
    // C7.1 [computed]: 60 g at 10 mm takes 3.210891 s, gate at once.
    String orifice = "orifice: 0.010\n    grain: 0.001\n    bulk_density: 1500";
    Bench bench =
        new Bench(
            Lines.FULL.replace("flow: 0.02", orifice).replace("gate_time: 0.1", "gate_time: 0"),
            1000);
    bench.set("hopper.open", 1).run(3.211);
    assertEquals(0.060, bench.get("wagon.tub.load"), 0.0186864 * 0.000109 + 1e-8);
  }

  @Test
  void movingGateGivesHalfTheFlow() {
    // F7.3 [derived], gate alone: opening and closing evenly in 0.1 s gives 0.02 * 0.1 kg in all.
    Bench bench = new Bench(Lines.FULL, 1000).set("hopper.open", 1).run(0.1);
    assertEquals(0.001, bench.get("wagon.tub.load"), 1e-12);
    assertEquals(0.002, bench.set("hopper.open", 0).run(1).get("wagon.tub.load"), 1e-12);
  }

  @Test
  void overfullWagonSpills() {
    Bench bench = new Bench(Lines.FULL, 1000).set("hopper.open", 1).run(20);
    assertEquals(0.1, bench.get("wagon.tub.load"), 1e-12);
    assertEquals(0.05, bench.get("hopper.spillage"), 1e-12);
    assertEquals(0, bench.get("hopper.stock"), 1e-12);
    assertEquals(List.of("spillage_began"), bench.happened());
  }

  @Test
  void spillsWithNoWagonUnderTheSpout() {
    String away = Lines.FULL.replace("position: 0.0\n", "position: 2.0\n");
    Bench bench = new Bench(away, 1000).set("hopper.open", 1).run(1);
    assertEquals(0, bench.get("wagon.tub.load"));
    assertEquals(0.15 - bench.get("hopper.stock"), bench.get("hopper.spillage"), 1e-12);
    assertTrue(bench.get("hopper.spillage") > 0.01);
  }

  @Test
  void wagonHalfUnderTheSpoutCatchesHalf() {
    String half = Lines.FULL.replace("position: 0.0\n", "position: -0.06\n");
    Bench bench = new Bench(half, 1000).set("hopper.open", 1).run(1);
    assertEquals(bench.get("hopper.spillage"), bench.get("wagon.tub.load"), 1e-9);
  }

  @Test
  void stuckGateGoesOnAsItIs() {
    Bench bench = new Bench(Lines.FULL, 1000).set("hopper.open", 1).run(0.5);
    bench.fault("hopper_gate_stuck", true, 0).set("hopper.open", 0);
    double before = bench.get("wagon.tub.load");
    assertEquals(0.02, bench.run(1).get("wagon.tub.load") - before, 1e-9);
  }

  @Test
  void tippedWagonEmptiesOnlyAtTheDischarge() {
    String loaded = Lines.FULL.replace("capacity: 0.1", "capacity: 0.1\n    load: 0.08");
    Bench away = new Bench(loaded, 1000).set("discharge.tip", 1).run(1);
    assertEquals(0.08, away.get("wagon.tub.load"));
    assertEquals(0, away.get("discharge.received"));
    Bench there = new Bench(loaded.replace("from: 0.3", "from: 0.0"), 1000);
    there.set("discharge.tip", 1).run(1);
    assertEquals(0.03, there.get("wagon.tub.load"), 1e-9);
    assertEquals(0.05, there.get("discharge.received"), 1e-9);
    assertEquals(0, there.run(3).get("wagon.tub.load"));
  }

  @Test
  void loadDroppedIntoAMovingWagonSlowsIt() {
    // C5.3: OpenStax, College Physics 2e, 8.5 (problem [re-read], answer [computed]).
    Bench bench = new Bench(Lines.wagons(Lines.wagon("car", 10, 30_000, 0)), 1000).push(1, 0.850);
    bench.stock.addLoad(1, 110_000);
    assertEquals(0.182142857, bench.stock.v[1], 1e-9);
  }

  @Test
  void loadMakesTheTrainSlowerToStart() {
    String loaded = Lines.FULL.replace("capacity: 0.1", "capacity: 1\n    load: 0.95");
    double light = new Bench(Lines.FULL, 1000).set("feed.close", 1).run(0.1).get("loco.speed");
    double heavy = new Bench(loaded, 1000).set("feed.close", 1).run(0.1).get("loco.speed");
    // Adhesion 0.858082 N (C3.9 [project choice]) less resistance, which grows with the load too.
    assertEquals((0.858082 - 0.4) / 1.9 * 0.1, heavy, 1e-6);
    assertTrue(heavy < light / 2);
  }
}
