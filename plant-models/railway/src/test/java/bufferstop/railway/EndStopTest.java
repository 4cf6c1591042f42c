package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class EndStopTest {
  // C2.5: EGIP Strategic Review, Appendix D [re-read]: 74.7 t at 2.78 m/s on a friction stop of 80
  // kJ/m; the source prints 289 kJ and 3.613 m, computed from its own figures 3.60820 m.
  private static Bench review(double travel) {
    String settings = Lines.wagons(Lines.wagon("train", 20, 74_700, 80));
    int shed = settings.indexOf("shed_end:");
    String end =
        settings
            .substring(shed)
            .replaceFirst("force: 2\n    travel: 0.008", "force: 80000\n    travel: " + travel);
    return new Bench(settings.substring(0, shed) + end, 1000).push(1, 2.78);
  }

  @Test
  void stopsTheTrainWithinTheTravelItsEnergyNeeds() {
    Bench bench = review(10).run(12);
    assertEquals(3.60820, bench.get("shed_end.overrun"), 5e-6);
    assertEquals(-3.60820, bench.get("shed_end.gap"), 5e-6);
    assertEquals(2.78, bench.get("shed_end.buffer_speed"), 1e-12);
    assertEquals(0, bench.get("shed_end.impact_speed"));
    assertEquals(0, bench.get("loco.speed"));
    assertEquals(List.of("buffer_struck"), bench.happened());
  }

  @Test
  void reportsSpeedAndEnergyAtTheWall() {
    // F2.4 [derived]: what 80 kN over 1 m leave of 288.6557 kJ (C2.5) [computed].
    Bench bench = review(1).run(12);
    double joules = 288_655.7 - 80_000;
    assertEquals(joules, bench.get("shed_end.impact_energy"), 0.1);
    assertEquals(Math.sqrt(2 * joules / 74_700), bench.get("shed_end.impact_speed"), 1e-6);
    assertEquals(0, bench.stock.v[1]);
    assertEquals(List.of("buffer_struck", "wall_struck"), bench.happened());
  }

  @Test
  void staysWhereItWasPushed() {
    Bench bench = review(10).run(12);
    bench.push(1, -1).run(1);
    assertEquals(3.60820, bench.get("shed_end.overrun"), 5e-6);
    assertTrue(bench.get("shed_end.gap") > -3);
    bench.push(1, 1).run(10);
    double again = 74_700.0 / 2 / 80_000; // 1 m/s, F2.4
    assertEquals(3.60820 + again, bench.get("shed_end.overrun"), 1e-5);
    assertEquals(2.78, bench.get("shed_end.buffer_speed"), 1e-12);
  }

  @Test
  void holdsALocomotiveThatPushesLessThanItsForce() {
    String near = Lines.between(Lines.REFERENCE, -100, 0.251).replace("force: 2", "force: 20");
    Bench bench = new Bench(near, 1000).set("feed.volts", 4).set("feed.close", 1).run(3);
    double pushed = bench.get("shed_end.overrun");
    assertTrue(pushed > 0 && pushed < 0.008);
    assertEquals(pushed, bench.run(3).get("shed_end.overrun"));
  }

  @Test
  void pitEndIsTheMirrorOfTheShedEnd() {
    String mirrored = Lines.wagons(Lines.wagon("train", 20, 74_700, -80));
    Bench bench =
        new Bench(mirrored.replace("start: -90", "start: 90"), 1000).push(0, -2.78).run(12);
    double left = 74_700 * 2.78 * 2.78 / 2 - 2 * 0.008; // J, F2.4
    assertEquals(left, bench.get("pit_end.impact_energy"), 1e-6);
    assertEquals(-0.008, bench.get("pit_end.gap"), 1e-9);
    assertEquals(0, bench.get("shed_end.impact_speed"));
  }
}
