package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.SplitMix64;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Invariants over random trains. A failure names the seed; give it back with {@code
 * -Dbufferstop.seed=N}.
 */
class TrainProperties {
  private static final int CASES = 60;

  private static long firstSeed() {
    return Long.getLong("bufferstop.seed", 1);
  }

  private static double between(SplitMix64 random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** Two to five wagons and the locomotive among them, each with a speed of its own. */
  private static Bench randomTrain(SplitMix64 random, double rolling, double face) {
    int wagons = 2 + (int) (random.nextDouble() * 4);
    StringBuilder text = new StringBuilder();
    double start = 0.2;
    for (int i = 0; i < wagons; i++) {
      start += between(random, 0.12, 0.3);
      text.append(Lines.wagon("w" + i, 0.1, between(random, 0.05, 2), start));
    }
    String settings =
        Lines.wagons(text.toString())
            .replace("rolling_resistance: 0", "rolling_resistance: " + rolling)
            .replace("adhesion: 1000", "adhesion: 0.25")
            .replace("start: -90", "start: 0")
            .replace("gap: 0.01", "gap: 0.01\n  max_speed: 0.3\n  restitution: 0.6");
    Bench bench = new Bench(Lines.between(settings, -face, face), 1000);
    for (int i = 0; i < bench.stock.count; i++) {
      bench.push(i, between(random, -0.5, 0.5));
    }
    return bench;
  }

  @Test
  void contactsKeepMomentum() {
    int contacts = 0;
    for (long seed = firstSeed(); seed < firstSeed() + CASES; seed++) {
      Bench bench = randomTrain(new SplitMix64(seed), 0, 100);
      double before = bench.momentum();
      double energy = bench.joules();
      bench.run(3);
      assertEquals(before, bench.momentum(), 1e-11, "seed " + seed);
      contacts += bench.joules() < energy ? 1 : 0;
    }
    assertTrue(contacts > CASES / 2, "most cases have a contact: " + contacts);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.02})
  void energyNeverGrowsWithThePowerOff(double rolling) {
    for (long seed = firstSeed(); seed < firstSeed() + CASES; seed++) {
      Bench bench = randomTrain(new SplitMix64(seed), rolling, 2);
      double before = bench.joules();
      for (int i = 0; i < 2000; i++) {
        double now = bench.step().joules();
        assertTrue(now <= before * (1 + 1e-12), "seed " + seed + " at step " + i);
        before = now;
      }
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.02})
  void vehiclesNeverPassThroughOneAnotherOrAWall(double rolling) {
    for (long seed = firstSeed(); seed < firstSeed() + CASES; seed++) {
      Bench bench = randomTrain(new SplitMix64(seed), rolling, 2);
      for (int i = 0; i < 2000; i++) {
        bench.step();
        for (int c = 0; c < bench.stock.count - 1; c++) {
          assertTrue(bench.stock.couplerDistance(c) > -1e-9, "seed " + seed + " at step " + i);
        }
        assertTrue(bench.get("pit_end.gap") > -0.008 - 1e-9, "seed " + seed + " at step " + i);
        assertTrue(bench.get("shed_end.gap") > -0.008 - 1e-9, "seed " + seed + " at step " + i);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1000, 500})
  void materialIsNeverLostOrMade(long stepMicros) {
    for (long seed = firstSeed(); seed < firstSeed() + 10; seed++) {
      SplitMix64 random = new SplitMix64(seed);
      Bench bench = new Bench(Lines.FULL.replace("from: 0.3", "from: -0.2"), stepMicros);
      for (int i = 0; i < 200; i++) {
        for (String valve : new String[] {"hopper.open", "discharge.tip", "feed.close"}) {
          bench.set(valve, random.nextDouble() < 0.5 ? 1 : 0);
        }
        bench.set("feed.reverse", i / 10 % 2).run(0.05);
        double sum =
            bench.get("hopper.stock")
                + bench.get("hopper.spillage")
                + bench.get("wagon.tub.load")
                + bench.get("discharge.received");
        assertEquals(0.15, sum, 1e-13, "seed " + seed);
      }
      assertTrue(bench.get("discharge.received") > 0, "seed " + seed);
    }
  }

  /**
   * Where the locomotive is after it slipped, coupled and coasted, and how fast it hit the wall.
   */
  private record Outcome(double placeMetres, double wallSpeed) {
    double error(Outcome fine) {
      return Math.max(
          Math.abs(placeMetres - fine.placeMetres), Math.abs(wallSpeed - fine.wallSpeed));
    }
  }

  private static Outcome outcome(long seed, long stepMicros) {
    SplitMix64 random = new SplitMix64(seed);
    String free = Lines.wagon("free", 0.1, between(random, 0.05, 0.4), between(random, 0.5, 0.6));
    String settings =
        Lines.REFERENCE.replace("adhesion: 1000", "adhesion: " + between(random, 0.2, 0.5))
            + free.indent(2);
    Bench bench = new Bench(Lines.between(settings, -100, 1.5), stepMicros);
    bench.set("feed.close", 1).run(1.2).set("feed.close", 0).run(0.4);
    double place = bench.get("loco.position");
    bench.set("feed.close", 1).run(5);
    assertTrue(bench.happened().contains("coupled"), "seed " + seed + ": " + bench.happened());
    assertTrue(bench.happened().contains("wall_struck"), "seed " + seed + ": " + bench.happened());
    return new Outcome(place, bench.get("shed_end.impact_speed"));
  }

  @Test
  void halvingTheStepConverges() {
    double coarse = 0;
    double half = 0;
    for (long seed = firstSeed(); seed < firstSeed() + 12; seed++) {
      Outcome fine = outcome(seed, 25);
      double error = outcome(seed, 1000).error(fine);
      assertTrue(error < 1e-5, "seed " + seed + ": " + error + " m or m/s");
      coarse += error;
      half += outcome(seed, 500).error(fine);
    }
    assertTrue(half < 0.35 * coarse, "second order: " + half + " after " + coarse);
  }
}
