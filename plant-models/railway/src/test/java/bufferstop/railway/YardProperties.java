package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.SplitMix64;
import org.junit.jupiter.api.Test;

/**
 * Invariants over random traffic on a track with turnouts, grades and slack. A failure names the
 * seed; give it back with {@code -Dbufferstop.seed=N}.
 */
class YardProperties {
  private static final int CASES = 40;

  private static long firstSeed() {
    return Long.getLong("bufferstop.seed", 1);
  }

  private static double between(SplitMix64 random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private static Bench traffic(SplitMix64 random, String extra) {
    String[] segments = {"west", "main", "loop", "east"};
    double[] from = {0, 100, 100, 200};
    StringBuilder locos = new StringBuilder("locomotives:\n");
    for (int i = 0; i < segments.length; i++) {
      double start = from[i] + between(random, 20, 80);
      locos.append(Yards.loco("l" + i, segments[i], start, between(random, -12, 12)).indent(2));
    }
    return new Bench(
        Yards.LOOP.replace("coupling: {gap: 1,", "coupling: {gap: 1, " + extra) + locos, 1000);
  }

  @Test
  void twoVehiclesNeverShareAPlaceWithoutARecordedCollision() {
    int collisions = 0;
    for (long seed = firstSeed(); seed < firstSeed() + CASES; seed++) {
      SplitMix64 random = new SplitMix64(seed);
      Bench bench = traffic(random, "");
      for (int i = 0; i < 150; i++) {
        bench.set("turnout.wp.to_reverse", random.nextDouble() < 0.5 ? 1 : 0);
        bench.set("turnout.ep.to_reverse", random.nextDouble() < 0.5 ? 1 : 0);
        bench.run(0.2);
        if (bench.get("trains.collisions") == 0) {
          assertNobodyOverlaps(bench, "seed " + seed + " at " + i);
        }
      }
      collisions += bench.get("trains.collisions") > 0 ? 1 : 0;
    }
    assertTrue(collisions > CASES / 4, "some cases collide: " + collisions);
  }

  private static void assertNobodyOverlaps(Bench bench, String what) {
    Occupancy occupancy = bench.plant.line().occupancy;
    for (int segment = 0; segment < 4; segment++) {
      for (int n = 0; n + 1 < occupancy.count(segment); n++) {
        assertTrue(
            occupancy.low(segment, n + 1) >= occupancy.high(segment, n) - 1e-6,
            what
                + ": vehicles "
                + occupancy.who(segment, n)
                + " and "
                + occupancy.who(segment, n + 1));
      }
    }
  }

  @Test
  void slackKeepsMomentumAndLosesEnergy() {
    for (long seed = firstSeed(); seed < firstSeed() + CASES; seed++) {
      SplitMix64 random = new SplitMix64(seed);
      StringBuilder text =
          new StringBuilder(
              """
              segments:
                line: {length: 10000}
              open_ends:
                - {at: line.low}
                - {at: line.high}
              coupling: {gap: 1, slack: 0.3, max_speed: 2}
              locomotives:
              """);
      text.append(Yards.loco("a", "line", 5000, 0).indent(2)).append("wagons:\n");
      for (int i = 0; i < 5; i++) {
        double kg = between(random, 5000, 80_000);
        text.append(
            "  w%d: {length: 10, tare: %s, rolling_resistance: 0, behind: %s}\n"
                .formatted(i, kg, i == 0 ? "a" : "w" + (i - 1)));
      }
      Bench bench = new Bench(text.toString(), 1000);
      for (int k = 0; k < bench.stock.count; k++) {
        bench.stock.v[k] = between(random, -1, 1);
        bench.stock.contact[k] = Stock.FREE;
      }
      Drive drive = bench.plant.line().drives.get(0);
      drive.wheel = bench.stock.v[bench.stock.at[drive.vehicle]];
      double momentum = bench.momentum();
      double energy = bench.joules();
      for (int i = 0; i < 3000; i++) {
        bench.step();
        assertTrue(bench.joules() <= energy * (1 + 1e-9), "seed " + seed + " at " + i);
        energy = bench.joules();
        for (int k = 0; k + 1 < bench.stock.count; k++) {
          double gap = bench.stock.couplerDistance(k);
          assertTrue(gap > -1e-8 && gap < 0.3 + 1e-8, "seed " + seed + ": slack " + gap);
        }
      }
      assertEquals(momentum, bench.momentum(), 1e-6 * Math.abs(momentum) + 1e-3, "seed " + seed);
    }
  }

  @Test
  void hillGivesBackWhatItTook() {
    for (long seed = firstSeed(); seed < firstSeed() + CASES; seed++) {
      SplitMix64 random = new SplitMix64(seed);
      double grade = between(random, 0.002, 0.03);
      String hill =
          """
          segments:
            flat: {length: 500}
            up: {from: 500, length: 500, gradient: %s}
            top: {from: 1000, length: 500}
          joints:
            - {from: flat.high, to: up.low}
            - {from: up.high, to: top.low}
          open_ends:
            - {at: flat.low}
            - {at: top.high}
          coupling: {gap: 1}
          locomotives:
          """
              .formatted(grade);
      double speed = between(random, 18, 25);
      Bench bench = new Bench(hill + Yards.loco("a", "flat", 400, speed).indent(2), 1000);
      while (bench.get("a.position") < 1100) {
        bench.step();
      }
      // v² falls by 2 g times the height [derived]
      double left = Math.sqrt(speed * speed - 2 * Stock.GRAVITY * grade * 500);
      assertEquals(left, bench.get("a.speed"), 1e-4, "seed " + seed);
    }
  }
}
