package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ContactsTest {
  // C5.1: OpenStax, College Physics 2e, 8.3 [re-read]; source prints 0.122 m/s. The two wagons
  // stand 0.42 m apart, so they meet after 1 s.
  private static Bench collegePhysics(String coupling) {
    String settings =
        Lines.wagons(Lines.wagon("a", 10, 150_000, 0) + Lines.wagon("b", 10, 110_000, 10.43));
    Bench bench = new Bench(settings.replace("gap: 0.01", "gap: 0.01\n" + coupling), 1000);
    return bench.push(1, 0.300).push(2, -0.120);
  }

  @Test
  void couplingKeepsMomentum() {
    Bench bench = collegePhysics("");
    double before = bench.bodyJoules();
    bench.run(1.5);
    assertEquals(0.122307692, bench.stock.v[1], 1e-9);
    assertEquals(0.122307692, bench.stock.v[2], 1e-9);
    assertEquals(5597.30769, before - bench.bodyJoules(), 1e-5);
    assertEquals(List.of("coupled"), bench.happened());
    assertEquals(1, bench.get("wagon.a.coupled"));
  }

  @Test
  void contactTimeDoesNotDependOnTheStep() {
    Bench bench = collegePhysics("").run(1.5);
    assertEquals(0.300 * 1.0 + 0.122307692 * 0.5, bench.post(1), 1e-9);
  }

  @Test
  void tooFastAContactRebounds() {
    Bench bench = collegePhysics("  max_speed: 0.3\n  restitution: 0.5").run(1.5);
    assertEquals(0.033461538, bench.stock.v[1], 1e-9); // C5.1 with e 0.5 [computed]
    assertEquals(0.243461538, bench.stock.v[2], 1e-9);
    assertEquals(0, bench.get("wagon.a.coupled"));
  }

  @Test
  void lightEngineOntoAWagon() {
    // C5.8 [project choice, computed]: 0.95 kg at 0.10 m/s onto a free 0.15 kg wagon. Looked at
    // right at the contact, for the rotor then drags the train on.
    String settings = Lines.REFERENCE + Lines.wagon("free", 0.1, 0.15, 0.31).indent(2);
    Bench bench = new Bench(settings, 1000).push(1, 0.10);
    double before = bench.bodyJoules();
    bench.plant.line().contacts.settle(0);
    assertEquals(0.0863636, bench.stock.v[2], 1e-7);
    assertEquals(0.647727e-3, before - bench.bodyJoules(), 1e-9);
  }

  @Test
  void tooSlowAContactTouchesWithoutCoupling() {
    String settings = Lines.wagons(Lines.wagon("a", 1, 1, 0) + Lines.wagon("b", 1, 1, 1.02));
    Bench bench = new Bench(settings, 1000).push(1, 0.019).run(2);
    assertEquals(0.0095, bench.stock.v[2], 1e-9);
    assertEquals(0, bench.get("wagon.b.coupled"));
    assertEquals(List.of(), bench.happened());
  }

  @Test
  void touchingLocomotiveLeavesTheWagonBehind() {
    Bench bench = new Bench(Lines.FULL, 1000).set("uncoupler.lift", 1).run(0.1);
    assertEquals(List.of("parted"), bench.happened());
    assertEquals(0, bench.get("loco.coupled"));
    bench.set("feed.close", 1).run(1);
    assertEquals(0, bench.get("wagon.tub.position"));
    assertTrue(bench.get("loco.position") > 0.3);
  }

  @Test
  void touchingLocomotivePushesTheWagon() {
    Bench bench = new Bench(Lines.FULL, 1000).set("uncoupler.lift", 1).run(0.1);
    bench.set("feed.reverse", 1).set("feed.close", 1).run(1);
    assertEquals(0.16, bench.get("loco.position") - bench.get("wagon.tub.position"), 1e-9);
    assertEquals(0, bench.get("loco.coupled"));
  }

  @Test
  void couplerInTensionPassesARaisedUncoupler() {
    // Reference 5.4 [project choice]: stop, ease back, pull away.
    String onward = Lines.FULL.replace("position: 0.065", "position: 0.3");
    Bench bench = new Bench(onward, 1000).set("uncoupler.lift", 1).set("feed.close", 1).run(2);
    assertEquals(1, bench.get("loco.coupled"));
    assertEquals(List.of(), bench.happened());
  }

  @Test
  void couplerOfAStandingTrainUnderPullDoesNotPart() {
    // 1.3 V give 0.13 N at the rail: below the 0.2 N that hold the train (C3.9 [computed]).
    Bench bench = new Bench(Lines.FULL, 1000).set("feed.volts", 1.3).set("uncoupler.lift", 1);
    bench.set("feed.close", 1).run(0.5);
    assertEquals(0, bench.get("loco.speed"));
    assertEquals(1, bench.get("loco.coupled"));
    assertEquals(0, bench.set("feed.close", 0).run(0.5).get("loco.coupled"));
  }

  @Test
  void bunchedCouplerPartsOverARaisedUncoupler() {
    String onward = Lines.FULL.replace("position: 0.065", "position: -0.3");
    Bench bench = new Bench(onward, 1000).set("uncoupler.lift", 1);
    bench.set("feed.reverse", 1).set("feed.close", 1).run(2);
    assertEquals(List.of("parted"), bench.happened());
  }

  @Test
  void couplerIsBunchedWhileABufferStopSlowsTheTrain() {
    Bench bench = new Bench(Lines.between(Lines.FULL, -0.0605, 100), 1000);
    bench.push(0, -0.2);
    while (bench.happened().isEmpty()) {
      bench.step();
    }
    assertEquals(List.of("buffer_struck"), bench.happened());
    assertEquals(0, bench.set("uncoupler.lift", 1).step().get("loco.coupled"));
    assertTrue(bench.get("loco.speed") < -0.1);
  }

  @Test
  void jammedUncouplerDoesNotPart() {
    Bench bench = new Bench(Lines.FULL, 1000).fault("uncoupler_jammed", true, 0);
    assertEquals(1, bench.set("uncoupler.lift", 1).run(0.1).get("loco.coupled"));
    assertEquals(0, bench.fault("uncoupler_jammed", false, 0).run(0.1).get("loco.coupled"));
  }

  @ParameterizedTest(name = "fault {0}, uncoupler {1}: coupled {2}")
  @CsvSource({"false, 0, 1", "true, 0, 0", "false, 1, 0"})
  void locomotiveComesBackToItsWagon(boolean fault, double lift, double coupled) {
    Bench bench = new Bench(Lines.FULL, 1000).set("uncoupler.lift", 1).run(0.1);
    bench.set("feed.close", 1).run(1).set("feed.close", 0).run(2).set("uncoupler.lift", lift);
    bench.fault("coupler_will_not_couple", fault, 0).set("feed.reverse", 1).set("feed.close", 1);
    bench.run(3);
    assertTrue(bench.get("wagon.tub.position") < -0.1);
    assertEquals(coupled, bench.get("loco.coupled"));
  }
}
