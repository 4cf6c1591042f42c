package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SensorsTest {
  private static final long FINE = 50; // µs; at 0.30 m/s one step is 0.015 mm

  private static final double READING = 2 * 0.015e-3; // two edges, each seen at a step's end, m

  private static Bench passing(double length, String beam) {
    String settings = Lines.wagons(Lines.wagon("target", length, 1, 0));
    String text = "beams:\n  gate:\n    position: 0.3\n" + beam.indent(4);
    return new Bench(settings + text, FINE).push(1, 0.30);
  }

  // C6.2 [derived]: beam 5 mm wide, bodies at 0.30 m/s; blocked length by F6.1, time by F6.3.
  @ParameterizedTest(name = "{0} mm body, {1} on, {2} off: {3} mm")
  @CsvSource({
    "120, 0.6, 0.4, 120", "120, 0.7, 0.5, 119", "120, 0.5, 0.3, 121",
    "8, 0.6, 0.4, 8", "12, 0.6, 0.4, 12", "50, 0.6, 0.4, 50"
  })
  void beamIsBlockedForTheLengthOfTheBody(double mm, double on, double off, double blocked) {
    Bench bench =
        passing(mm / 1000, "p_on: " + on + "\np_off: " + off + "\non_delay: 0\noff_delay: 0\n");
    bench.until("beam.gate", 1);
    double seconds = bench.until("beam.gate", 0);
    assertEquals(blocked / 1000, seconds * 0.30, READING);
  }

  // F6.1 [derived]: a gap G is seen only if G > (1 - p_off) d; here d 5 mm and p_off 0.4.
  @ParameterizedTest(name = "a gap of {0} mm is seen for {1} mm")
  @CsvSource({"2.9, 0", "8, 8", "12, 12"})
  void beamSeesTheGapBetweenVehicles(double gap, double clear) {
    String pair = Lines.wagon("front", 0.1, 1, 0.1 + gap / 1000) + Lines.wagon("rear", 0.1, 1, 0);
    String text = "beams:\n  gate:\n    position: 0.4\n    on_delay: 0\n    off_delay: 0\n";
    Bench bench = new Bench(Lines.wagons(pair).replace("gap: 0.01", "gap: 0") + text, FINE);
    bench.push(1, 0.30).push(2, 0.30).until("beam.gate", 1);
    double seen = 0;
    while (bench.post(1) - 0.05 < 0.39) { // until the rear wagon is about to leave
      seen += bench.step().get("beam.gate") == 0 ? FINE * 1e-6 * 0.30 : 0;
    }
    assertEquals(clear / 1000, seen, READING);
  }

  @Test
  void lightOutputIsTheInverse() {
    Bench bench = passing(0.1, "output: light\n");
    assertEquals(1, bench.get("beam.gate"));
    bench.until("beam.gate", 0);
  }

  @Test
  void beamAnswersAfterItsResponseTime() {
    double prompt = passing(0.1, "on_delay: 0\n").until("beam.gate", 1);
    double slow = passing(0.1, "on_delay: 0.05\n").until("beam.gate", 1);
    assertEquals(0.05, slow - prompt, 1e-9);
  }

  @Test
  void restoredBeamKeepsTheTimeItWaited() throws IOException {
    String delayed = "on_delay: 0.05\n";
    double whole = passing(0.1, delayed).until("beam.gate", 1);
    Bench saved = passing(0.1, delayed).run(whole - 0.03);
    ByteArrayOutputStream state = new ByteArrayOutputStream();
    saved.plant.save(new DataOutputStream(state));
    Bench resumed = passing(0.1, delayed);
    resumed.plant.restore(new DataInputStream(new ByteArrayInputStream(state.toByteArray())));
    assertEquals(0.03, resumed.until("beam.gate", 1), 1e-9);
  }

  @Test
  void beamMissesABodyShorterThanItsResponseTime() {
    // 12 mm at 0.30 m/s block for 40 ms (C6.2 [derived]).
    Bench bench = passing(0.012, "on_delay: 0.041\n");
    for (int i = 0; i < 2_000_000 / FINE; i++) {
      assertEquals(0, bench.step().get("beam.gate"));
    }
  }

  private static Bench passingReed(double ratio) {
    double release = 0.012 * StrictMath.pow(ratio, -1.0 / 3);
    String settings = Lines.wagons("").replace("wagons:\n", "").replace("start: -90", "start: 0");
    String reed =
        """
        reeds:
          stop:
            position: 0.1
            operate: 0.012
            release: %s
            closest: 0.008
        """
            .formatted(release);
    return new Bench(settings + reed, FINE).push(0, 0.30);
  }

  // C6.7, F6.5 [derived]: closest 8 mm, operate 12 mm, drop-out over pull-in 0.4, 0.6, 0.9 (the
  // range of the ratio [from memory, not re-read]).
  @ParameterizedTest(name = "ratio {0}: closed over {1} mm")
  @CsvSource({"0.4, 23.130542", "0.6, 20.709638", "0.9, 18.456280"})
  void reedIsClosedOverItsLength(double ratio, double mm) {
    Bench bench = passingReed(ratio);
    // Without bounce the closed length would begin where the magnet comes within 8.944272 mm.
    double on = 0.1 - 0.008944272;
    bench.until("reed.stop", 1);
    bench.run(0.002).until("reed.stop", 0);
    assertEquals(mm / 1000, bench.get("loco.position") - on, READING);
  }

  @Test
  void reedBouncesForAtMostAMillisecond() {
    Bench bench = passingReed(0.6);
    bench.until("reed.stop", 1);
    int changes = 0;
    double before = 1;
    double lastChangeMicros = 0;
    for (int i = 1; i <= 40_000 / FINE; i++) { // 40 ms of the 69.032 ms closed (C6.7)
      double now = bench.step().get("reed.stop");
      changes += now == before ? 0 : 1;
      lastChangeMicros = now == before ? lastChangeMicros : i * FINE;
      before = now;
    }
    assertTrue(changes > 0, "it bounces");
    assertTrue(lastChangeMicros <= 1000, "last change after " + lastChangeMicros + " us");
    assertEquals(1, before);
  }

  @Test
  void bounceDependsOnTheSeedAlone() {
    assertEquals(pattern(5), pattern(5));
    assertTrue(!pattern(5).equals(pattern(6)));
  }

  private static String pattern(long seed) {
    String settings = Lines.FULL.replace("position: 0.6", "position: 0.2");
    Bench bench = new Bench(settings, FINE, seed).push(1, 0.4);
    StringBuilder bits = new StringBuilder();
    for (int i = 0; i < 200_000 / FINE; i++) {
      bits.append((int) bench.step().get("reed.middle"));
    }
    return bits.toString();
  }
}
