package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.railway.VehicleData.Resistance;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Train resistance, effort, brakes and slack against the figures of the rail reference. */
class FullSizeTest {
  private static final double TON = 907.18474; // kg
  private static final double MPH = 0.44704;
  private static final double LB_PER_TON = 4.903325e-3; // N/kg, exactly half a thousandth of g
  private static final double POUND = 4.4482216; // N

  // SI coefficients of reference 1.1 (derived there from the formulas in lb/ton): F1.1 with A 88
  // ft² (S. quoting Szanto, CORE 2016 [second-hand]), F1.2 [constants from memory, not re-read],
  // F1.3 Szanto eq. (2) [re-read]. F1.3 has one constant a vehicle, here spread over four axles.
  // The reference prints 0.11979363 A as for ft²; that figure is the one for A in m² (0.0005 lbf at
  // 1 mph and 1 ft² is 0.011129 N s²/m²), so 88 ft² are taken as 8.1754675 m².
  private static final Resistance ORIGINAL =
      new Resistance(0, 6.3743225, 128.99843, 0.49357915, 0.11979363 * 8.1754675);
  private static final Resistance MODIFIED =
      new Resistance(0, 2.941995, 88.964432, 0.10968426, 1.55808694);
  private static final Resistance AAR =
      new Resistance(0, 6.3743225, 322.49607 / 4, 0.16452638, 1.22421117);

  // C1.1: lb/ton of a four-axle car, 25 tons an axle loaded, 7.5 empty.
  @ParameterizedTest(name = "{1} tons an axle at {0} mph")
  @CsvSource({
    "0, 25, 1.4000, 2.0250",
    "10, 25, 1.5700, 2.2300",
    "30, 25, 2.3300, 2.9700",
    "50, 25, 3.6500, 4.1500",
    "60, 25, 4.5200, 4.9050",
    "0, 7.5, 3.2667, 3.7167",
    "10, 7.5, 3.6000, 4.0500",
    "30, 7.5, 5.6667, 5.8167",
    "50, 7.5, 9.6000, 9.0500",
    "60, 7.5, 12.2667, 11.2167"
  })
  void davisFormulasGiveTheTable(double mph, double axle, double modified, double aar) {
    assertEquals(modified, poundsPerTon(MODIFIED, mph, axle), 6e-5);
    assertEquals(aar, poundsPerTon(AAR, mph, axle), 6e-5);
  }

  // C1.1, original Davis, on 25 tons an axle and on 7.5: 0.0005 A V²/(w n) with A 88 ft².
  @ParameterizedTest(name = "original, {1} tons an axle at {0} mph")
  @CsvSource({"0, 25, 2.4600", "30, 25, 4.2060", "60, 25, 6.7440", "50, 7.5, 11.0833"})
  void originalDavisGivesTheTable(double mph, double axle, double pounds) {
    assertEquals(pounds, poundsPerTon(ORIGINAL, mph, axle), 6e-5);
  }

  private static double poundsPerTon(Resistance resistance, double mph, double tonsPerAxle) {
    double kg = tonsPerAxle * 4 * TON;
    double speed = mph * MPH;
    double newtons = resistance.constantNewtons(kg, 4) + resistance.movingNewtons(kg, speed);
    return newtons / kg / LB_PER_TON;
  }

  @Test
  void hundredTonCarAtFiftyMilesAnHour() {
    // C1.2: by F1.2, 365 lbf = 1623.60089 N.
    double kg = 100 * TON;
    double newtons = MODIFIED.constantNewtons(kg, 4) + MODIFIED.movingNewtons(kg, 50 * MPH);
    assertEquals(1623.60089, newtons, 1e-3);
  }

  private static final String DAVIS =
      "davis: {per_tonne: 2.941995, per_axle: 88.964432, per_tonne_speed: 0.10968426,"
          + " by_square: 1.55808694}";

  private static Bench balanced(double grade, double radius, double speed) {
    String settings =
        """
        segments:
          line: {length: 20000, gradient: %s, curve_radius: %s}
        open_ends:
          - {at: line.low}
          - {at: line.high}
        curve_resistance: 0.698551
        coupling: {gap: 0}
        locomotives:
          diesel:
            length: 20
            mass: %s
            axles: 6
            %s
            start: 9000
            start_speed: %s
            drive: {effort: %s, power: %s, rotating_share: 0.05}
        wagons:
          car: {length: 15, tare: %s, axles: 4, %s, behind: diesel, count: 40, start_speed: %s}
        """
            .formatted(
                grade,
                radius,
                195 * TON,
                DAVIS,
                speed,
                0.25 * 195 * 2000 * POUND,
                308 * 3000 * POUND * MPH,
                100 * TON,
                DAVIS,
                speed);
    return new Bench(settings, 10_000).set("diesel.handle", 1);
  }

  // C1.6 (computed in the reference): 3000 hp, 195 tons, 40 cars of 100 tons, F1.2; here a run at
  // the balancing speed must neither gain nor lose. The curve of 4 degrees by F1.7, F1.8.
  @ParameterizedTest(name = "grade {0}, radius {1} m: {2} m/s")
  @CsvSource({
    "0, 0, 24.569675",
    "0.0025, 0, 13.464139",
    "0.005, 0, 8.333572",
    "0.005, 436.59375, 6.613305",
    "0.01, 0, 4.566025"
  })
  void trainKeepsItsBalancingSpeed(double grade, double radius, double speed) {
    Bench bench = balanced(grade, radius, speed);
    bench.run(20);
    assertEquals(speed, bench.get("diesel.speed"), 2e-5);
    assertTrue(balanced(grade, radius, speed * 1.02).run(20).get("diesel.speed") < speed * 1.02);
    assertTrue(balanced(grade, radius, speed * 0.98).run(20).get("diesel.speed") > speed * 0.98);
  }

  @Test
  void trainCannotStartOnOneAndAHalfPerCent() {
    // C1.6, last row: 97 500 lbf of adhesion is less than the resistance at rest.
    assertTrue(balanced(0.015, 0, 0).run(5).get("diesel.speed") <= 0);
  }

  @Test
  void couplingInAFreightTrainPullsThePublishedForce() {
    // C1.14: OpenStax, College Physics 2e, 4.6 [re-read]: 2 engines of 8e4 kg, 45 cars of 5.5e4 kg,
    // 0.05 m/s², friction 7.5e5 N shared by the 47; source prints 4.41e5 N an engine and 1.50e5 N
    // between the 37th and the 38th car.
    double each = 7.5e5 / 47;
    String engine =
        """
          %s:
            length: 20
            mass: 80000
            %s
            adhesion: 10
            davis: {per_tonne: 0, per_axle: %s, per_tonne_speed: 0, by_square: 0}
            axles: 1
            start_speed: 5
            drive: {effort: 440875, power: 1e9, rotating_share: 1e-6}
        """;
    String settings =
        """
        segments:
          line: {length: 5000}
        open_ends:
          - {at: line.low}
          - {at: line.high}
        coupling: {gap: 0}
        locomotives:
        """
            + engine.formatted("one", "start: 3000", each)
            + engine.formatted("two", "behind: one", each)
            + """
            wagons:
              car:
                length: 15
                tare: 55000
                davis: {per_tonne: 0, per_axle: %s, per_tonne_speed: 0, by_square: 0}
                axles: 1
                behind: two
                count: 45
                start_speed: 5
            """
                .formatted(each);
    Bench bench = new Bench(settings, 1000).set("one.handle", 1).set("two.handle", 1).run(1);
    assertEquals(5.05, bench.get("one.speed"), 1e-6);
    // places count from the rear: cars 45 to 1, then the engines; eight cars are behind place 7
    assertEquals(149_659.57, bench.plant.line().forces.tension(7), 0.5);
  }

  @Test
  void tramReachesItsSpeedAtConstantPower() {
    // C1.17: OpenStax, College Physics 2e, 20.4 (problem [re-read], answer computed): 630 A at 650
    // V, 95 % efficient, 5.30e4 kg to 20.0 m/s in 27.24761 s.
    String settings =
        """
        segments:
          line: {length: 5000}
        open_ends:
          - {at: line.low}
          - {at: line.high}
        feeds:
          wire: {volts: 650}
        coupling: {gap: 0}
        locomotives:
          tram:
            length: 20
            mass: 53000
            rolling_resistance: 0
            adhesion: 1000
            start: 100
            drive: {effort: 4e6, power: %s, efficiency: 0.95, electric: TRUE, rotating_share: 1e-6}
        """
            .formatted(0.95 * 630 * 650);
    Bench bench = new Bench(settings, 1000).set("wire.close", 1).set("tram.handle", 1);
    bench.run(27.24761);
    assertEquals(20.0, bench.get("tram.speed"), 2e-3); // a little less at first, at 4 MN
    assertEquals(630, bench.get("wire.current"), 1e-6);
    bench.set("wire.close", 0).run(0.01);
    assertEquals(0, bench.get("wire.current"));
  }

  private static Bench braked(double kg, double newtons, double buildUp, double speed) {
    String settings =
        """
        segments:
          line: {length: 5000}
        open_ends:
          - {at: line.low}
          - {at: line.high}
        coupling: {gap: 0}
        brakes: {build_up: %s, adhesion: 1}
        locomotives:
          loco:
            length: 20
            mass: %s
            rolling_resistance: 0
            brake_force: %s
            start: 100
            start_speed: %s
            drive: {effort: 0, power: 1, rotating_share: 1e-6}
        """
            .formatted(buildUp, kg, newtons, speed);
    return new Bench(settings, 1000).set("loco.brake", 1);
  }

  // C2.4: OpenStax, College Physics 2e, 8.1 [re-read]: 15 000 kg at 5.4 m/s, 1500 N: 54 s. C7.4
  // [derived]: 60 kN from 10 m/s, 20 t in 16.666667 m and 80 t in 66.666667 m.
  @ParameterizedTest(name = "{0} kg, {1} N, {2} m/s: {3} m in {4} s")
  @CsvSource({
    "15000, 1500, 5.4, 145.8, 54",
    "20000, 60000, 10, 16.666667, 3.3333333",
    "80000, 60000, 10, 66.666667, 13.333333"
  })
  void brakeStopsInItsDistance(double kg, double newtons, double speed, double metres, double s) {
    Bench bench = braked(kg, newtons, 0, speed);
    double seconds = bench.until("loco.speed", 0);
    assertEquals(s, seconds, 1e-3 + 1e-4);
    assertEquals(metres, bench.get("loco.position") - 100, 1e-3);
  }

  @Test
  void weakBrakeAndBuildUpLengthenTheStop() {
    Bench sharp = braked(20_000, 20_000, 0, 10);
    sharp.until("loco.speed", 0);
    assertEquals(50, sharp.get("loco.position") - 100, 1e-3);
    Bench slow = braked(20_000, 20_000, 2, 10);
    slow.until("loco.speed", 0);
    // 1 m/s² built up evenly in 2 s: 20 - 4/3 m, then 9²... v falls by 1: (10 - 1)² / 2 [derived]
    assertEquals(
        20 - 8.0 / 12 + 81.0 / 2, slow.get("loco.position") - 100 + 2.0 / 3 - 2.0 / 3, 0.7);
    Bench weak = braked(20_000, 20_000, 0, 10).fault("weak_brake", true, 0.5);
    weak.until("loco.speed", 0);
    assertEquals(100, weak.get("loco.position") - 100, 1e-3);
  }

  @Test
  void slackRunsInCarByCar() {
    // C5.6 [derived]: M = 3 m without force; after 1, 2, 3 and 5 cars 0.75, 0.6, 0.5, 0.375 v0.
    StringBuilder wagons = new StringBuilder();
    for (int i = 1; i <= 5; i++) {
      String each = "  c%d: {length: 10, tare: 10000, rolling_resistance: 0, start: %s}\n";
      wagons.append(each.formatted(i, 100 + 11.5 * i));
    }
    Bench bench = slack(wagons.toString(), 30_000, 0.5, 90, 1.0);
    double[] expected = {0.75, 0.6, 0.5, 3.0 / 7, 0.375};
    for (int cars = 1; cars <= 5; cars++) {
      while (bench.happened().size() < cars) {
        bench.step();
      }
      assertEquals(expected[cars - 1], bench.get("loco.speed"), 1e-5);
    }
  }

  private static Bench slack(
      String wagons, double kg, double slackMetres, double start, double speed) {
    String settings =
        """
        segments:
          line: {length: 5000}
        open_ends:
          - {at: line.low}
          - {at: line.high}
        coupling: {gap: 1, slack: %s, max_speed: 5, min_speed: 0.01}
        locomotives:
          loco:
            length: 10
            mass: %s
            rolling_resistance: 0
            adhesion: 10
            start: %s
            start_speed: %s
            drive: {effort: 300000, power: 1e9, rotating_share: 1e-6}
        wagons:
        """
            .formatted(slackMetres, kg, start, speed);
    return new Bench(settings + wagons, 1000);
  }

  // C5.7 [derived]: pull 300 kN, 0.15 m of slack a car, 130 t and cars of 90 t, plastic pick-up:
  // speed after each car and the time of it.
  @Test
  void trainIsStartedOneCarAtATime() {
    String cars =
        "  car: {length: 10, tare: 90000, rolling_resistance: 0, behind: loco, count: 10}\n";
    Bench bench = slack(cars, 130_000, 0.15, 1000, 0).set("loco.handle", 1);
    double[][] table = {
      {1, 0.4917, 0.3606},
      {2, 0.5725, 0.5916},
      {3, 0.6093, 0.8124},
      {5, 0.6440, 1.2450},
      {10, 0.6737, 2.3130}
    };
    double time = 0;
    for (double[] row : table) {
      bench.run(Math.floor((row[2] - time) * 1000) / 1000);
      time += Math.floor((row[2] - time) * 1000) / 1000;
      int place = bench.stock.count - 1 - (int) row[0];
      while (bench.stock.v[place] == 0) {
        bench.step();
        time += 0.001;
      }
      assertEquals(row[2], time, 0.002, "time of car " + row[0]);
      assertEquals(row[1], bench.stock.v[place], 2e-3, "speed after car " + row[0]);
    }
  }

  @Test
  void tooStrongAPullDividesTheTrain() {
    String cars =
        "  car: {length: 10, tare: 90000, rolling_resistance: 0, behind: loco, count: 3}\n";
    Bench bench = slack(cars, 130_000, 0, 1000, 0);
    bench.run(0.1);
    String weak = "coupling: {strength: 100000, ";
    assertEquals(0, bench.set("loco.handle", 1).run(1).get("trains.divided"));
    Bench breaks =
        new Bench(
                """
                segments:
                  line: {length: 5000}
                open_ends:
                  - {at: line.low}
                  - {at: line.high}
                """
                    + weak
                    + """
                    gap: 1}
                    brakes: {build_up: 1}
                    locomotives:
                      loco:
                        length: 10
                        mass: 130000
                        adhesion: 10
                        start: 1000
                        drive: {effort: 300000, power: 1e9}
                    wagons:
                      car:
                        length: 10
                        tare: 90000
                        brake_force: 50000
                        behind: loco
                        count: 3
                    """,
                1000)
            .set("loco.handle", 1)
            .run(2);
    assertEquals(1, breaks.get("trains.divided"));
    assertEquals(List.of("divided"), breaks.happened());
    // parted from every locomotive the cars brake by themselves and stand
    breaks.run(20);
    assertEquals(0, breaks.stock.v[0]);
    assertTrue(breaks.get("loco.speed") > 10);
  }

  @Test
  void stagedBufferStopTakesThePublishedTrain() {
    // C2.6: EGIP Strategic Review, app. D [re-read]: 335.16 t at 2.78 m/s; 3.5 m at 80 kN, 0.5 m at
    // 160, 0.5 m at 240, then 320: at rest after 7.047266 m (computed from the source's figures).
    String settings =
        """
        segments:
          line: {length: 1000}
        open_ends:
          - {at: line.low}
        buffers:
          stop:
            at: line.high
            force: 80000
            travel: 3.5
            stages:
              - {force: 160000, travel: 0.5}
              - {force: 240000, travel: 0.5}
              - {force: 320000, travel: 5}
        coupling: {gap: 0}
        locomotives:
          train:
            length: 20
            mass: 335160
            rolling_resistance: 0
            start: 980
            start_speed: 2.78
            drive: {effort: 0, power: 1, rotating_share: 1e-6}
        """;
    Bench bench = new Bench(settings, 1000).run(20);
    assertEquals(7.047266, bench.get("stop.overrun"), 2e-5);
    assertEquals(0, bench.get("train.speed"));
  }

  @Test
  void adhesionFallsWithSpeedAsCurtiusAndKnifflerSay() {
    // C1.7 [from memory, not re-read]: 0, 40 and 100 km/h.
    assertEquals(0.331455, Drive.curtiusKniffler(0), 1e-6);
    assertEquals(0.250286, Drive.curtiusKniffler(40 / 3.6), 1e-6);
    assertEquals(0.213083, Drive.curtiusKniffler(100 / 3.6), 1e-6);
  }
}
