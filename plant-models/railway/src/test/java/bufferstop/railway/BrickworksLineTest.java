package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * The places of the brickworks tramway do what their comments promise, with a contactor that opens
 * 20 ms after its beam. All figures are of an invented line [project choice].
 */
class BrickworksLineTest {
  private Bench bench;

  @BeforeEach
  void open() throws IOException {
    bench = new Bench(Files.readString(Path.of("../../configs/brickworks/line.yaml")), 1000);
  }

  private void go(double reverse) {
    bench.set("feed.reverse", reverse).set("feed.close", 1);
  }

  private void stopAt(String sensor) {
    bench.until(sensor, 1);
    bench.run(0.02).set("feed.close", 0).until("loco.speed", 0);
  }

  private void pullAwayAlone() {
    bench.set("uncoupler.lift", 1).run(0.1);
    go(0);
  }

  @Test
  void hauledTubIsFilledTippedAndLeftAtTheKiln() {
    go(1);
    stopAt("beam.pit");
    bench.set("hopper.open", 1).run(6).set("hopper.open", 0).run(1);
    assertEquals(0.06, bench.get("wagon.tub1.load"), 0.001);
    assertEquals(0, bench.get("hopper.spillage"));
    go(0);
    stopAt("beam.kiln");
    bench.set("discharge.tip", 1).run(4);
    assertEquals(0, bench.get("wagon.tub1.load"));
    pullAwayAlone();
    stopAt("beam.shed");
    assertEquals(2.5, bench.get("wagon.tub1.position"), 0.01);
    assertTrue(bench.get("shed_end.gap") > 0.5);
    go(1);
    bench.set("uncoupler.lift", 0).until("loco.coupled", 1);
    stopAt("beam.pit");
    assertEquals(0.6, bench.get("wagon.tub1.position"), 0.01);
  }

  @Test
  void overrunReedStopsTheLocomotiveShortOfTheBuffer() {
    pullAwayAlone();
    stopAt("reed.overrun");
    assertEquals(0.125, bench.get("shed_end.gap"), 0.025);
  }

  @Test
  void pitOverrunReedStopsTheTrainShortOfTheBuffer() {
    go(1);
    stopAt("reed.pit_overrun");
    assertEquals(0.125, bench.get("pit_end.gap"), 0.025);
  }

  @Test
  void nothingButTheReedSavesARunaway() {
    pullAwayAlone();
    bench.run(8);
    assertTrue(bench.get("shed_end.impact_speed") > 0.05);
    assertEquals(List.of("parted", "buffer_struck", "wall_struck"), bench.happened());
  }
}
