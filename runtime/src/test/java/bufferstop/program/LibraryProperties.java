package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Random libraries: what is compiled does to every cell what it does as it stands, which every scan
 * of {@link SmallController} compares, and functions agree with the same written in Java.
 */
class LibraryProperties {
  private static final long SEED = 20260415;
  private static final int ROUNDS = 60;
  private static final int SCANS = 40;

  @Test
  void compiledLibrariesDoWhatTheyDoAsTheyStand() {
    SplittableRandom random = new SplittableRandom(SEED);
    long errors = 0;
    long done = 0;
    for (int round = 0; round < ROUNDS; round++) {
      RandomLibrary library = new RandomLibrary(random);
      String project = library.project();
      try {
        SmallController on = SmallController.ofProject(project);
        for (int scan = 0; scan < SCANS; scan++) {
          on.set("x", random.nextInt(-40, 40)).set("y", random.nextInt(-40, 40)).scan();
          done += on.get("i") != 0 ? 1 : 0;
        }
        errors += on.get("scan.errors");
      } catch (AssertionError e) {
        throw new AssertionError("seed " + SEED + ", round " + round + ":\n" + project, e);
      }
    }
    assertTrue(errors > ROUNDS, "only " + errors + " errors were met");
    assertTrue(done > ROUNDS * SCANS / 4, "only " + done + " scans left a value");
  }

  @Test
  void functionsAgreeWithJava() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int round = 0; round < ROUNDS; round++) {
      RandomLibrary.Chain chain = new RandomLibrary.Chain(random);
      SmallController on = SmallController.ofProject(chain.project());
      for (int scan = 0; scan < SCANS; scan++) {
        int x = random.nextInt(-40, 40);
        int y = random.nextInt(-40, 40);
        on.set("x", x).set("y", y).scan();
        assertEquals(
            chain.value(x, y), on.get("i"), "seed " + SEED + ", x " + x + ":\n" + chain.project());
      }
    }
  }
}
