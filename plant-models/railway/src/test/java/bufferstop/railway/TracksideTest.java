package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.PlantPicture;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Blocks, axle counters, scales, crossings, signals, obstacles. Settings are invented. */
class TracksideTest {
  private static final String LINE =
      """
      segments:
        line: {length: 100, block: b}
      open_ends:
        - {at: line.low}
        - {at: line.high}
      coupling: {gap: 1}
      locomotives:
        a:
          length: 10
          wheelbase: 6
          axles: 4
          axle_resistance: %s
          mass: 10000
          rolling_resistance: 0
          start: %s
          start_speed: %s
          drive: {effort: 20000, power: 1e6, rotating_share: 1e-6}
      """;

  private static final String BARE = LINE.replace(", block: b", "");

  // C4.4: 15 kohm a wheelset (NEM 624 [re-read]), 12 V: n axles carry 0.8 n mA; thresholds of 4
  // kohm, 50 kohm and 100 kohm are 3.0, 0.24 and 0.12 mA.
  @ParameterizedTest(name = "four axles, {0} A: occupied {1}")
  @CsvSource({"0.0031, 1", "0.0033, 0", "0.00012, 1"})
  void blockAnswersToTheCurrentOfItsAxles(double amperes, double occupied) {
    String block = "blocks:\n  b: {threshold: %s}\n".formatted(amperes);
    Bench bench = new Bench(LINE.formatted(15_000, 50, 0) + block, 1000).step();
    assertEquals(occupied, bench.get("block.b"));
  }

  @Test
  void trackCircuitIsShedByItsShuntAndFailsAsToldToFail() {
    String block = "blocks:\n  b: {kind: relay}\n";
    Bench shunts = new Bench(LINE.formatted(0.24, 50, 0) + block, 1000).step();
    assertEquals(0, shunts.get("block.b")); // 0.24 ohm over four axles are the 0.06 ohm of the rule
    assertEquals(1, shunts.fault("block_blind", true, 0).step().get("block.b"));
    Bench rusty = new Bench(LINE.formatted(0.25, 50, 0) + block, 1000).step();
    assertEquals(1, rusty.get("block.b"));
    assertEquals(0, rusty.fault("block_leaks", true, 0).step().get("block.b"));
  }

  @Test
  void blockClearsAfterItsDelay() {
    String track =
        LINE.replace(
            "{length: 100, block: b}",
            "{length: 100, block: b}\n  more: {from: 100, length: 100, block: c}");
    String joined =
        track.replace("  - {at: line.high}", "  - {at: more.high}")
            + "joints:\n  - {from: line.high, to: more.low}\n"
            + "blocks:\n  b: {off_delay: 0.5}\n  c: {bias: 12}\n";
    Bench bench =
        new Bench(
            joined.formatted(15_000, 90, 10).replace("start: 90", "segment: line\n    start: 90"),
            1000);
    bench.until("block.c", 1);
    assertEquals(1.1, bench.until("block.b", 0), 0.002); // 6 m of wheelbase at 10 m/s, and 0.5 s
  }

  @Test
  void counterCountsEveryAxleEitherWay() {
    String counter = "counters:\n  c: {position: 60, pulse: 0.02}\n";
    Bench bench = new Bench(BARE.formatted(100, 50, 10) + counter, 1000).run(2);
    assertEquals(4, bench.get("counter.c.up"));
    assertEquals(0, bench.get("counter.c.down"));
    bench.push(0, -10).run(2.5);
    assertEquals(4, bench.get("counter.c.down"));
    Bench deaf = new Bench(BARE.formatted(100, 50, 10) + counter, 1000);
    assertEquals(0, deaf.fault("counter_misses", true, 1).run(2).get("counter.c.up"));
  }

  @Test
  void scaleWeighsWhatStandsOnIt() {
    String scale = "scales:\n  s: {from: 40, to: 50, on: 4000, off: 3000, time_constant: 0.5}\n";
    Bench bench = new Bench(BARE.formatted(100, 50, 0) + scale, 1000).step();
    assertEquals(5000, bench.get("scale.s.mass"), 1e-9); // half of it
    assertEquals(1, bench.get("scale.s.heavy"));
    bench.push(0, 10);
    bench.run(0.5); // off the platform within half a second
    double mass = bench.get("scale.s.mass");
    bench.run(0.5);
    assertEquals(mass * Math.exp(-1), bench.get("scale.s.mass"), 1e-6 * mass);
    assertEquals(0, bench.get("scale.s.heavy"));
  }

  @Test
  void trainOnAnOpenCrossingIsCountedOnce() {
    String crossing = "crossings:\n  lane: {from: 60, to: 64, lower_time: 2, raise_time: 4}\n";
    String settings = BARE.formatted(100, 50, 2) + crossing;
    Bench open = new Bench(settings, 1000).set("crossing.lane.raise", 1).run(6);
    assertEquals(1, open.get("crossing.lane.unprotected"));
    assertEquals(List.of("unprotected"), open.happened());
    Bench closed = new Bench(settings, 1000).run(2.2); // its front comes to 60 after 2.5 s
    assertEquals(1, closed.get("crossing.lane.down"));
    assertEquals(0, closed.run(4).get("crossing.lane.unprotected"));
    assertEquals(1, closed.get("crossing.lane.occupied"));
    Bench raised = closed.set("crossing.lane.raise", 1).run(0.1);
    assertEquals(1, raised.get("crossing.lane.unprotected"));
  }

  @Test
  void barriersAndLightsFailAsTold() {
    String crossing = "crossings:\n  lane: {from: 60, to: 64, lower_time: 2, raise_time: 4}\n";
    Bench bench = new Bench(BARE.formatted(100, 50, 0) + crossing, 1000);
    bench.set("crossing.lane.raise", 1).set("crossing.lane.lights", 1).step();
    assertEquals(1, bench.get("crossing.lane.lit"));
    assertEquals(0, bench.fault("lights_out", true, 0).step().get("crossing.lane.lit"));
    bench.fault("barrier_stuck", true, 0).set("crossing.lane.raise", 0).run(5);
    assertEquals(1, bench.get("crossing.lane.up"));
  }

  @Test
  void personOnTheTrackIsStruckOnce() {
    String person = "obstacles:\n  person: {position: 60}\n";
    Bench bench = new Bench(BARE.formatted(100, 50, 5) + person, 1000);
    bench.run(3);
    assertEquals(0, bench.get("trains.struck"));
    Bench there = new Bench(BARE.formatted(100, 50, 5) + person, 1000);
    there.set("obstacle.person.present", 1).run(3);
    assertEquals(1, there.get("trains.struck"));
    assertEquals(5, there.get("trains.struck_speed"), 1e-9);
  }

  @Test
  void signalPassedAtDangerIsCountedOnceAndTheOtherWayNever() {
    String signal = "signals:\n  s: {position: 60, for_trains_to: high, sighting: 50}\n";
    Bench bench = new Bench(BARE.formatted(100, 50, 5) + signal, 1000).run(3);
    assertEquals(1, bench.get("trains.passed_at_danger"));
    bench.push(0, -5).run(4);
    assertEquals(1, bench.get("trains.passed_at_danger"));
    Bench clear = new Bench(BARE.formatted(100, 50, 5) + signal, 1000);
    assertEquals(0, clear.set("signal.s.clear", 1).run(3).get("trains.passed_at_danger"));
  }

  @Test
  void misalignedAndDarkSensors() {
    String beam = "beams:\n  g: {position: 60}\n  r: {position: 70, kind: reflective}\n";
    Bench bench = new Bench(BARE.formatted(100, 50, 0) + beam, 1000).step();
    assertEquals(0, bench.get("beam.g"));
    assertEquals(1, bench.fault("beam_misaligned.g", true, -6).run(0.01).get("beam.g"));
    bench.fault("beam_misaligned.g", false, 0).run(0.01);
    bench.fault("beam_dark", true, 0).run(0.01);
    assertEquals(1, bench.get("beam.g"));
    assertEquals(0, bench.get("beam.r"));
  }

  @Test
  void toleranceAndJitterDependOnTheSeedAlone() {
    String beam = "beams:\n  g: {position: 60, tolerance: 0.5, jitter: 0.05}\n";
    String settings = BARE.formatted(100, 50, 5) + beam;
    double one = new Bench(settings, 100, 1).until("beam.g", 1);
    assertEquals(one, new Bench(settings, 100, 1).until("beam.g", 1));
    double other = new Bench(settings, 100, 2).until("beam.g", 1);
    assertTrue(one != other);
    assertEquals(1, one, 0.1 + 0.05 + 0.001); // 5 m at 5 m/s, half a metre and 50 ms either way
  }

  @Test
  void picturesShowPlanAndTrainGraph() {
    Bench bench =
        new Bench(Yards.LOOP + "locomotives:\n" + Yards.loco("a", "west", 50, 10).indent(2), 1000);
    assertEquals(1, bench.plant.pictures().size());
    bench.run(10);
    List<PlantPicture> pictures = bench.plant.pictures();
    assertEquals(List.of("", "train_graph"), pictures.stream().map(PlantPicture::name).toList());
    for (PlantPicture picture : pictures) {
      assertTrue(picture.svg().startsWith("<svg ") && picture.svg().endsWith("</svg>\n"));
      assertTrue(!picture.svg().contains("NaN") && !picture.svg().contains("Infinity"));
    }
    assertTrue(pictures.get(0).svg().contains("wp normal"), pictures.get(0).svg());
    assertTrue(pictures.get(1).svg().contains(">5 s<"), "its time axis");
    assertTrue(pictures.get(1).svg().contains("#efe2c4"), "occupied blocks");
  }
}
