package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.railway.LineData.FeedData;
import bufferstop.railway.VehicleData.LocoData;
import bufferstop.railway.VehicleData.ReverserData;
import bufferstop.railway.VehicleData.SeriesData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Motors and the sequence reverser against published and computed figures. */
class MotorsTest {
  private static Feed feed(boolean ac, double volts) {
    Feed feed = new Feed(new FeedData("feed", ac, volts, true, false, 0, null));
    feed.set(true, false, false, volts);
    return feed;
  }

  private static LocoData loco(VehicleData.TractionData traction) {
    return new LocoData(0.25, false, 1, traction, 0, false);
  }

  // Published motor: University of Michigan control tutorials, DC Motor Speed [re-read]: J 0.01, b
  // 0.1, K 0.01, R 1, L 0.5, step of 1 V; the source prints 0.1 rad/s at the end. Times: C3.1
  // (computed from its transfer function). Wheel radius and gear 1, so that m/s are rad/s; wheels
  // that the rail does not hold.
  private static final String PUBLISHED =
      """
      segments:
        line: {length: 100}
      feeds:
        feed: {volts: 1, returns_current: TRUE}
      open_ends:
        - {at: line.low}
        - {at: line.high}
      coupling: {gap: 0}
      locomotives:
        rig:
          length: 1
          mass: 1
          start: 50
          adhesion: 0
          motor:
            resistance: 1
            constant: 0.01
            gear: 1
            wheel_radius: 1
            friction_torque: 0
            rotor_inertia: 0.01
            inductance: 0.5
            viscous_friction: 0.1
      """;

  @ParameterizedTest(name = "after {0} s {1} rad/s, {2} A")
  @CsvSource({
    "0.1, 0.0068555, 0.1812645", "0.25, 0.0262336, 0.3934222", "0.5, 0.0541701, 0.6319257",
    "1, 0.0830371, 0.8641302", "1.5, 0.0937039, 0.9494468", "2, 0.0976235, 0.9807938",
    "3, 0.0995928, 0.9965431"
  })
  void stepResponseIsThePublishedMotors(double seconds, double speed, double amperes) {
    Bench bench = new Bench(PUBLISHED, 1000).set("feed.close", 1).run(seconds);
    assertEquals(speed, bench.plant.line().drives.get(0).wheel, 2e-7);
    assertEquals(amperes, bench.get("rig.current"), 2e-6);
  }

  @Test
  void motorSettlesWhereThePublishedOneDoes() {
    // The source prints 2.07 s to within 2 %; computed 2.0651886 s of 0.0999000999 rad/s.
    Bench bench = new Bench(PUBLISHED, 1000).set("feed.close", 1).run(2.064);
    double band = 0.98 * 0.0999000999;
    assertTrue(bench.plant.line().drives.get(0).wheel < band);
    assertTrue(bench.run(0.003).plant.line().drives.get(0).wheel > band);
  }

  @Test
  void smallRealMotorRunsFreeAsMeasured() {
    // C3.2: Carnegie Mellon motor [re-read]: J 3.2284e-6, b 3.5077e-6, K 0.0274, R 4, L 2.75e-6;
    // at 12 V 429.921490 rad/s and 55.037796 mA; stiff by L, so the step must not matter.
    String small =
        PUBLISHED
            .replace("volts: 1,", "volts: 12,")
            .replace("resistance: 1\n", "resistance: 4\n")
            .replace("constant: 0.01", "constant: 0.0274")
            .replace("rotor_inertia: 0.01", "rotor_inertia: 3.2284e-6")
            .replace("inductance: 0.5", "inductance: 2.75e-6")
            .replace("viscous_friction: 0.1", "viscous_friction: 3.5077e-6");
    Bench bench = new Bench(small, 1000).set("feed.close", 1).run(2);
    assertEquals(429.921490, bench.plant.line().drives.get(0).wheel, 1e-4);
    assertEquals(0.055037796, bench.get("rig.current"), 1e-6);
  }

  // C3.10 [derived]: V 16, R 3, X 4, K_s 0.01: ω, I, torque.
  @ParameterizedTest(name = "{0} rad/s: {1} A, {2} N m")
  @CsvSource({
    "0, 3.2, 0.1024",
    "400, 1.984556, 0.03938462",
    "800, 1.366972, 0.01868613",
    "1200, 1.030651, 0.01062241"
  })
  void seriesMotorGivesTheTable(double omega, double amperes, double torque) {
    SeriesData data = new SeriesData(3, 4, 0.01, 1, 1, 0, 1e-6, null);
    SeriesDrive drive = new SeriesDrive(0, loco(data), data);
    drive.prepare(feed(true, 16), 1, 1, 0.001);
    drive.wheel = omega;
    assertEquals(amperes, drive.amperes(), 1e-6);
    assertEquals(torque, drive.newtons(omega), 1e-8);
    double step = 1e-3;
    double slope = (drive.newtons(omega - step) - drive.newtons(omega + step)) / (2 * step);
    assertEquals(slope, drive.slope(omega), 1e-6 * Math.abs(slope) + 1e-12);
  }

  @Test
  void polarityDoesNotTurnASeriesMotor() {
    SeriesData data = new SeriesData(3, 4, 0.01, 1, 1, 0, 1e-6, null);
    SeriesDrive drive = new SeriesDrive(0, loco(data), data);
    drive.prepare(feed(true, -16), 1, -1, 0.001);
    assertEquals(0.1024, drive.newtons(0), 1e-9);
    drive.prepare(feed(true, 16), -1, 1, 0.001); // it faces the other way along its row
    assertEquals(-0.1024, drive.newtons(0), 1e-9);
  }

  @Test
  void reverserStepsAsTheTableSays() {
    // C3.11 (project choice): t_min 0.100 s; interruptions 0.05, 0.10, 0.50, 0.20, 0.20, 0.20 s.
    Reverser reverser = new Reverser(new ReverserData(100_000, 0, 0, false));
    int[] interruptions = {50, 100, 500, 200, 200, 200};
    int[] states = {0, 1, 2, 3, 0, 1};
    for (int i = 0; i < states.length; i++) {
      for (int ms = 0; ms < interruptions[i]; ms++) {
        reverser.step(false, 1000);
      }
      reverser.step(true, 1000);
      assertEquals(states[i], reverser.state(), "after interruption " + i);
    }
    assertEquals(0, reverser.direction());
  }

  @Test
  void lockedReverserStaysAndOneWithAResetGoesForward() {
    Reverser locked = new Reverser(new ReverserData(100_000, 0, 2, true));
    Reverser resets = new Reverser(new ReverserData(100_000, 3_000_000, 2, false));
    for (int ms = 0; ms < 3000; ms++) {
      locked.step(false, 1000);
      resets.step(false, 1000);
    }
    assertEquals(-1, locked.direction());
    assertEquals(1, resets.direction());
  }

  @Test
  void dirtyRailTakesTheCurrentAwayNowAndThen() {
    Bench bench = new Bench(Lines.FULL, 1000).set("feed.close", 1).run(3);
    bench.fault("dirty_rail", true, 0.5);
    int without = 0;
    for (int i = 0; i < 20_000; i++) {
      bench.set("feed.reverse", i / 4000 % 2); // there and back, so that it stays on its line
      without += bench.step().get("loco.current") == 0 ? 1 : 0;
    }
    assertTrue(without > 5000 && without < 15_000, "without current " + without);
    bench.fault("dirty_rail", false, 0).run(1);
    assertTrue(bench.get("loco.current") != 0);
  }

  @Test
  void shortedMotorDrawsAndDoesNotPull() {
    Bench bench = new Bench(Lines.FULL, 1000).fault("motor_shorted", true, 0);
    bench.set("feed.close", 1).run(1);
    assertEquals(0, bench.get("loco.speed"));
    assertEquals(12, bench.get("feed.current"), 1e-9); // 12 V over a twentieth of 20 ohm
  }

  @Test
  void deadSectionFeedsNobody() {
    Bench bench = new Bench(Lines.FULL, 1000).fault("section_dead", true, 0);
    assertEquals(0, bench.set("feed.close", 1).run(1).get("loco.speed"));
    assertEquals(0, bench.get("feed.current"));
  }

  @Test
  void feedShowsWhatIsDrawnEitherWay() {
    Bench bench = new Bench(Lines.FULL, 1000).set("feed.close", 1).run(0.05);
    assertTrue(bench.get("feed.current") > 0);
    Bench back = new Bench(Lines.FULL, 1000).set("feed.reverse", 1).set("feed.close", 1).run(0.05);
    assertEquals(bench.get("feed.current"), back.get("feed.current"), 1e-12);
    assertTrue(back.get("loco.current") < 0);
  }
}
