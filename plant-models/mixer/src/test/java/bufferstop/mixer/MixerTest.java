package bufferstop.mixer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The equations of the plant against closed forms worked out apart from it. */
class MixerTest {
  private final Bench bench = new Bench();

  @Test
  void aValveOpensEvenlyAndTellsItsEnds() {
    assertEquals(1, bench.get("feed.sand.closed"));
    bench.set("feed.sand.open", 1).run(0.4);
    assertEquals(0, bench.get("feed.sand.closed") + bench.get("feed.sand.opened"));
    assertEquals(1, bench.run(0.401).get("feed.sand.opened"));
    assertEquals(1, bench.set("feed.sand.open", 0).run(0.801).get("feed.sand.closed"));
  }

  /** 8 kg/s for 2 s, less half of the 0.8 s the valve takes to open, all fallen at last. */
  @Test
  void dosesFlowTimesTimeAndWhatFallsAfterwards() {
    bench.set("feed.sand.open", 1).run(2);
    assertEquals(8 * (2 - 0.4), bench.get("hopper.mass") + bench.plant.fallingKg(), 1e-6);
    assertEquals(4, bench.plant.fallingKg(), 0.4); // 8 kg/s for 0.5 s
    bench.set("feed.sand.open", 0).run(10);
    assertEquals(8 * 2, bench.get("hopper.mass"), 1e-6); // it takes as long to close
    assertEquals(16, bench.get("feed.sand.dosed"), 1e-6);
    assertEquals(100_000 - 16, bench.get("feed.sand.stock"), 1e-6);
  }

  @Test
  void theLoadCellGivesItsCurrentWithALagOfFirstOrder() {
    assertEquals(0.004, bench.get("hopper.signal"));
    bench.set("feed.water.open", 1).run(5).set("feed.water.open", 0).run(0.2);
    double mass = bench.get("hopper.mass");
    bench.run(3);
    assertEquals(0.004 + 0.016 * mass / 80, bench.get("hopper.signal"), 1e-8);
  }

  @Test
  void noMassIsLostOrMade() {
    for (int second = 0; second < 60; second++) {
      bench.set("feed.sand.open", second % 7 < 4 ? 1 : 0).set("feed.water.open", second % 3);
      bench.set("gate.open", second % 5 < 2 ? 1 : 0).set("discharge.open", second / 40).run(1);
      double all =
          bench.get("feed.sand.stock")
              + bench.get("feed.water.stock")
              + bench.plant.fallingKg()
              + bench.get("hopper.mass")
              + bench.get("vessel.mass")
              + bench.get("discharge.delivered")
              + bench.get("spilled");
      assertEquals(200_000, all, 1e-6, "after " + second + " s");
    }
    assertTrue(bench.get("spilled") > 1 && bench.get("discharge.delivered") > 1);
    assertEquals(List.of("spillage_began"), bench.happened().stream().distinct().toList());
  }

  /** Empty vessel: T = Ta + P/k (1 - exp(-t k/C)), C/k = 1000 s, with the jacket's lag of 10 s. */
  @Test
  void warmsLikeTwoLagsInARow() {
    bench.set("heat", 1).run(600);
    double slow = 1000;
    double fast = 10;
    double share =
        1 - (slow * Math.exp(-600 / slow) - fast * Math.exp(-600 / fast)) / (slow - fast);
    assertEquals(10 + 6000 / 20.0 * share, bench.get("vessel.temperature"), 0.01);
  }

  @Test
  void whatIsAddedColdCoolsByTheBalanceOfHeat() {
    bench.set("heat", 1).run(300).set("heat", 0).run(100);
    double before = bench.get("vessel.temperature");
    bench.set("feed.water.open", 1).run(5).set("feed.water.open", 0).run(1);
    double warm = bench.get("vessel.temperature");
    bench.set("gate.open", 1).run(3);
    double added = bench.get("vessel.mass");
    double balance = (20_000 * warm + added * 1000 * 10) / (20_000 + added * 1000);
    assertEquals(balance, bench.get("vessel.temperature"), 0.2); // and 3 s of loss
    assertTrue(before - warm < 0.3 * (warm - balance));
  }

  @Test
  void theTransmitterSaturatesAtItsLimits() {
    Bench hot =
        new Bench(
            Bench.SETTINGS.replace(
                "specific: 1000", "specific: 1000\n  ambient: 60\n  low: 0\n  high: 50"));
    assertEquals(0.0205, hot.get("vessel.signal"));
    Bench cold =
        new Bench(Bench.SETTINGS.replace("specific: 1000", "specific: 1000\n  ambient: -20"));
    assertEquals(0.0038, cold.get("vessel.signal"));
  }

  /** At full speed 1 - mixed falls with exp(-t/15 s). */
  @Test
  void mixesWithTheTimeConstantOfFullSpeed() {
    bench.set("feed.water.open", 1).run(3).set("feed.water.open", 0).set("gate.open", 1).run(5);
    bench.set("agitator.run", 1).run(10);
    assertEquals(1, bench.get("agitator.turning"));
    double before = 1 - bench.get("vessel.mixed");
    bench.run(15);
    assertEquals(Math.exp(-1), (1 - bench.get("vessel.mixed")) / before, 1e-4);
    assertEquals(4, bench.get("agitator.speed"), 1e-4);
  }

  @Test
  void theContactsOfTheVesselTellHighAndEmpty() {
    assertEquals(1, bench.get("vessel.empty"));
    bench.set("feed.sand.open", 1).set("gate.open", 1).run(3);
    assertEquals(0, bench.get("vessel.empty") + bench.get("vessel.high"));
    assertEquals(1, bench.run(6).get("vessel.high"));
    bench.set("feed.sand.open", 0).run(2).set("discharge.open", 1).run(20);
    assertEquals(1, bench.get("vessel.empty"));
    assertEquals(0, bench.get("vessel.mass"), 1e-9);
  }

  @Test
  void faultsDoWhatTheySay() {
    bench.fault("bridged_sand", true).set("feed.sand.open", 1).run(5);
    assertEquals(0, bench.get("hopper.mass"));
    bench.fault("bridged_sand", false).fault("stuck_sand", true).set("feed.sand.open", 0).run(2);
    assertEquals(1, bench.get("feed.sand.opened"));
    assertTrue(bench.get("hopper.mass") > 10);
    bench.fault("stuck_gate", true).set("gate.open", 1).run(2);
    assertEquals(1, bench.get("gate.closed"));
    bench.fault("stuck_discharge", true).set("discharge.open", 1).run(2);
    assertEquals(1, bench.get("discharge.closed"));
    bench.fault("belt_torn", true).set("agitator.run", 1).run(5);
    assertEquals(0, bench.get("agitator.speed"));
    bench.fault("heater_dead", true).set("heat", 1).run(50);
    assertEquals(10, bench.get("vessel.temperature"), 1e-9);
  }
}
