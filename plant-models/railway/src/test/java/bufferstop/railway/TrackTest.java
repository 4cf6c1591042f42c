package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Ways through a track with turnouts. Settings are invented [project choice]. */
class TrackTest {
  private static Bench bench(String locos) {
    return new Bench(Yards.LOOP + "locomotives:\n" + locos.indent(2), 1000);
  }

  private static Bench through(double points, double speed) {
    return bench(Yards.loco("a", "west", 50, speed))
        .set("turnout.wp.to_reverse", points)
        .set("turnout.ep.to_reverse", points)
        .run(2.5);
  }

  @Test
  void facingTurnoutSendsTheTrainTheWayItLies() {
    Bench normal = through(0, 20).run(2);
    assertEquals(1, normal.get("block.main"));
    assertEquals(0, normal.get("block.loop"));
    Bench reverse = through(1, 20).run(2);
    assertEquals(0, reverse.get("block.main"));
    assertEquals(1, reverse.get("block.loop"));
    for (Bench each : List.of(normal, reverse)) {
      assertEquals(140, each.get("a.position"), 1e-9);
      assertEquals(20, each.run(5).get("a.speed"), 1e-9);
      assertEquals(240, each.get("a.position"), 1e-9);
      assertEquals(1, each.get("block.east"));
      assertEquals(0, each.get("trains.derailed"));
    }
  }

  @Test
  void trainAcrossATurnoutStandsInBothBlocks() {
    Bench bench = through(0, 20); // at 100, five metres either side
    assertEquals(1, bench.get("block.west"));
    assertEquals(1, bench.get("block.main"));
    assertEquals(1, bench.get("block.west.trains"));
    assertEquals(1, bench.get("block.main.trains"));
  }

  @Test
  void bladesTakeTheirTimeAndProveWhereTheyLie() {
    Bench bench = bench(Yards.loco("a", "west", 50, 0));
    assertEquals(1, bench.get("turnout.wp.lies_normal"));
    bench.set("turnout.wp.to_reverse", 1).run(1.999);
    assertEquals(0, bench.get("turnout.wp.lies_normal"));
    assertEquals(0, bench.get("turnout.wp.lies_reverse"));
    assertEquals(1, bench.run(0.002).get("turnout.wp.lies_reverse"));
  }

  @Test
  void slowAndStuckBladesDoNotGetThere() {
    Bench bench = bench(Yards.loco("a", "west", 50, 0)).fault("turnout_slow.wp", true, 3);
    assertEquals(0, bench.set("turnout.wp.to_reverse", 1).run(5.9).get("turnout.wp.lies_reverse"));
    assertEquals(1, bench.run(0.2).get("turnout.wp.lies_reverse"));
    bench.fault("turnout_stuck.wp", true, 0).set("turnout.wp.to_reverse", 0).run(20);
    assertEquals(1, bench.get("turnout.wp.lies_reverse"));
  }

  @Test
  void halfMovedTurnoutDerailsAFacingTrain() {
    Bench bench = bench(Yards.loco("a", "west", 90, 5)).set("turnout.wp.to_reverse", 1).run(1.5);
    assertEquals(List.of("derailed"), bench.happened());
    assertEquals(1, bench.get("trains.derailed"));
    assertEquals(0, bench.run(3).get("a.speed"));
  }

  @Test
  void turnoutMovedUnderATrainDerailsIt() {
    Bench bench = through(0, 20).set("turnout.wp.to_reverse", 1).run(0.1);
    assertEquals(List.of("derailed", "moved_under"), bench.happened());
    assertEquals(1, bench.get("turnout.wp.moved_under"));
  }

  @Test
  void trailingTrainPushesTheBladesOverAndBreaksThem() {
    Bench bench = bench(Yards.loco("a", "loop", 120, -20).replace("loop", "loop")).run(1.5);
    assertEquals(List.of("run_through"), bench.happened());
    assertEquals(1, bench.get("turnout.wp.run_through"));
    assertEquals(0, bench.get("turnout.wp.lies_normal") + bench.get("turnout.wp.lies_reverse"));
    assertEquals(0, bench.get("trains.derailed"));
    assertEquals(-20, bench.get("a.speed"), 1e-9);
  }

  @Test
  void trailableTurnoutIsNoneTheWorse() {
    String spring = Yards.LOOP.replace("reverse: loop.low,", "reverse: loop.low, trailable: TRUE,");
    String loco = Yards.loco("a", "loop", 120, -20).indent(2);
    Bench bench = new Bench(spring + "locomotives:\n" + loco, 1000);
    bench.set("turnout.wp.to_reverse", 1).run(1.5);
    assertEquals(1, bench.run(1).get("turnout.wp.lies_reverse"));
  }

  @Test
  void trainsInDifferentLegsNeverMeet() {
    String two = Yards.loco("a", "main", 150, 0) + Yards.loco("b", "loop", 150, 0);
    Bench bench = bench(two).push(0, 1).run(3);
    assertEquals(150, bench.get("b.position"), 1e-9);
    assertEquals(List.of(), bench.happened());
  }

  @Test
  void trainsThatMeetTooFastCollide() {
    String two = Yards.loco("a", "west", 50, 10) + Yards.loco("b", "main", 150, 0);
    Bench bench = bench(two);
    bench.run(9.1); // 89 m between couplers at 10 m/s
    assertEquals(List.of("collided"), bench.happened());
    assertEquals(10, bench.get("trains.collision_speed"), 1e-9);
    assertEquals(1, bench.get("trains.collisions"));
    // equal masses, restitution 0.3 (F5.1 [derived]): 3.5 and 6.5 m/s
    assertEquals(3.5, bench.get("a.speed"), 1e-4); // its rotor drags it on a little
    assertEquals(6.5, bench.get("b.speed"), 1e-4);
  }

  @Test
  void trainThatRunsIntoTheSideOfAnotherCollides() {
    String two = Yards.loco("a", "west", 98, 0) + Yards.loco("b", "loop", 130, -10);
    Bench bench = bench(two).run(3);
    assertTrue(bench.happened().contains("collided"), bench.happened().toString());
    assertEquals(2, bench.get("trains.derailed"));
    assertTrue(bench.get("trains.collision_speed") > 5);
  }

  @Test
  void foulingVehicleIsStruck() {
    String fouled = Yards.LOOP.replace("reverse: loop.low,", "reverse: loop.low, fouling: 20,");
    String two = Yards.loco("a", "main", 112, 0) + Yards.loco("b", "loop", 140, -10);
    Bench bench = new Bench(fouled + "locomotives:\n" + two.indent(2), 1000);
    bench.set("turnout.wp.to_reverse", 1).run(1.4);
    assertEquals(List.of(), bench.happened());
    bench.run(0.2); // 120 is reached after 1.5 s
    assertEquals(List.of("collided", "derailed", "derailed"), bench.happened());
  }

  @Test
  void openEndIsTheEndOfTheJourney() {
    String open = Yards.LOOP.replace("  ee: {at: east.high, force: 1000, travel: 1}\n", "");
    String loco = Yards.loco("a", "east", 280, 10).indent(2);
    Bench bench =
        new Bench(open + "open_ends:\n  - {at: east.high}\nlocomotives:\n" + loco, 1000).run(2);
    assertEquals(List.of("derailed"), bench.happened());
  }

  @Test
  void segmentsMayBeJoinedHighToHigh() {
    String track =
        """
        segments:
          one: {length: 100}
          two: {length: 100}
        joints:
          - {from: one.high, to: two.high}
        buffers:
          a_end: {at: one.low, force: 1000, travel: 1}
          b_end: {at: two.low, force: 1000, travel: 1}
        coupling: {gap: 1}
        locomotives:
        """;
    Bench bench = new Bench(track + Yards.loco("a", "one", 90, 10).indent(2), 1000).run(3);
    assertEquals(80, bench.get("a.position"), 1e-9); // 120 from one.low, 20 down from two.high
    assertEquals(-10, bench.get("a.speed"), 1e-9); // towards the low end there
    assertEquals(75, bench.get("b_end.gap"), 1e-9);
  }

  @Test
  void ringIsRunRoundAndRound() {
    String ring =
        """
        segments:
          one: {length: 100}
          two: {from: 100, length: 100}
        joints:
          - {from: one.high, to: two.low}
          - {from: two.high, to: one.low}
        coupling: {gap: 1, max_speed: 1}
        locomotives:
        """;
    Bench alone = new Bench(ring + Yards.loco("a", "one", 50, 10).indent(2), 1000).run(205);
    assertEquals(100, alone.get("a.position"), 1e-6);
    String two = Yards.loco("a", "one", 50, 10) + Yards.loco("b", "two", 150, 4);
    Bench chase = new Bench(ring + two.indent(2), 1000).run(20);
    assertEquals(List.of("collided"), chase.happened()); // 89 m at 6 m/s
    assertEquals(6, chase.get("trains.collision_speed"), 1e-9);
  }

  @Test
  void twoThatMeetOnARingInTheOtherGapCollideToo() {
    String ring =
        """
        segments:
          one: {length: 100}
          two: {from: 100, length: 100}
        joints:
          - {from: one.high, to: two.low}
          - {from: two.high, to: one.low}
        coupling: {gap: 1, max_speed: 1}
        locomotives:
        """;
    String two = Yards.loco("a", "one", 50, -10) + Yards.loco("b", "two", 120, 10);
    Bench bench = new Bench(ring + two.indent(2), 1000).run(7);
    assertEquals(List.of("collided"), bench.happened()); // 119 m at 20 m/s
  }

  @Test
  void curveTakenTooFastDerails() {
    String curve =
        Yards.LOOP.replace("main: {from: 100", "main: {curve_radius: 100, from: 100")
            + "lateral_limit: 4\ncurve_resistance: 0\n";
    // v² / R = a: 20 m/s at 4 m/s² and 100 m [derived]
    for (double speed : new double[] {19.9, 20.1}) {
      String loco = Yards.loco("a", "west", 80, speed).indent(2);
      Bench bench = new Bench(curve + "locomotives:\n" + loco, 1000).run(2);
      assertEquals(speed > 20 ? 1 : 0, bench.get("trains.derailed"));
    }
  }

  @Test
  void bankedCurveHasThePublishedEquilibriumSpeed() {
    // C1.21: OpenStax, University Physics 1, 6.3 [re-read]: 5.0 degrees, 500 m, g 9.80; the source
    // prints 20.7 m/s, computed 20.70494.
    double speed = Track.equilibriumSpeed(500, Math.toRadians(5), 0) * Math.sqrt(9.80 / 9.80665);
    assertEquals(20.70494, speed, 1e-5);
  }
}
