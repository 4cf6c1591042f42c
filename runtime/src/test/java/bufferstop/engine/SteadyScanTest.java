package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.image.WriteRequest;
import bufferstop.load.ProjectLoader;
import bufferstop.model.Diagnostics;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.Rig;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The brickworks, scanned as in a long run. */
class SteadyScanTest {
  private static final int SCANS_OF_A_HAUL = 6000;
  private static final int SCANS_OF_THE_LAMP_TEST = 300;
  private static final int HAULS_TO_WARM_UP = 5;
  private static final int HAULS_MEASURED = 3;

  private final Rig rig = brickworks();

  private static Rig brickworks() {
    Diagnostics problems = new Diagnostics();
    PlantCatalog catalog = PlantCatalog.find(List.of(), problems);
    Rig rig =
        Rig.build(
            ProjectLoader.read(Path.of("../configs/brickworks"), problems), catalog, 1, problems);
    assertEquals(List.of(), problems.sorted());
    return rig;
  }

  private WriteRequest press(String point) {
    int cell = rig.layout().field().find(point).index();
    return new WriteRequest(new int[] {cell}, new long[] {1}, new long[1]);
  }

  private WriteRequest start() {
    return press("start");
  }

  private void haul(WriteRequest start) {
    rig.writes().offer(start);
    scan(SCANS_OF_A_HAUL);
  }

  private void scan(int scans) {
    for (int i = 0; i < scans; i++) {
      rig.engine().scan(0);
    }
  }

  /** Reset and lamp test, then the run that finds the train. */
  private void bringToReady() {
    rig.writes().offer(press("reset"));
    scan(SCANS_OF_THE_LAMP_TEST);
    haul(start());
  }

  private long loads() {
    return rig.engine().cells()[rig.layout().field().find("loads_hauled").index()];
  }

  @Test
  void aScanAllocatesNothing() {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    bringToReady();
    Stream.generate(this::start).limit(HAULS_TO_WARM_UP).forEach(this::haul);
    long least = Long.MAX_VALUE;
    for (WriteRequest request : Stream.generate(this::start).limit(HAULS_MEASURED).toList()) {
      long before = threads.getCurrentThreadAllocatedBytes();
      haul(request);
      least = Math.min(least, threads.getCurrentThreadAllocatedBytes() - before);
      assertTrue(request.takenBy() >= 0);
    }
    // what the scan itself allocates comes back in every haul; what the JVM does now and then, does
    // not
    assertEquals(0, least, "bytes in " + SCANS_OF_A_HAUL + " scans");
    assertEquals(HAULS_TO_WARM_UP + HAULS_MEASURED, loads(), "the train stood still");
  }
}
