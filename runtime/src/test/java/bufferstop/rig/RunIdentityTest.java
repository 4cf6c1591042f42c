package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import bufferstop.load.ProjectLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.scenario.ScenarioResult;
import java.nio.file.Path;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The SHA-256 of the trace is the identity of a run: project, scenario and seed, nothing else. */
class RunIdentityTest {
  private static final Path BRICKWORKS = Path.of("..", "configs", "brickworks");
  private static final String SCENARIO =
      """
      scenario: Identity
      for: T#20s
      do:
        - {at: T#1s, write: {start: TRUE}}
        - {at: T#3s, fault: {wire: kiln_beam, mode: %s}}
      expect:
        - always: scan.errors = 0
      """;

  @TempDir Path folder;

  private final Diagnostics problems = new Diagnostics();
  private final PlantCatalog catalog = PlantCatalog.find(List.of(), problems);
  private final Project project = ProjectLoader.read(BRICKWORKS, problems);

  private String run(Scenario scenario, long seed) {
    ScenarioResult result = Workbench.with(project, seed, catalog).run(scenario);
    return result.traceSha256();
  }

  private Scenario with(String mode) {
    return Workbench.scenario(folder, SCENARIO.formatted(mode));
  }

  @Test
  void isTheSameWheneverItIsRun() {
    Scenario scenario = with("chatter");
    assertEquals(run(scenario, 1), run(scenario, 1));
  }

  @Test
  void isAnotherWithAnotherSeedWhereSomebodyUsesIt() {
    Scenario scenario = with("chatter");
    assertNotEquals(run(scenario, 1), run(scenario, 2));
  }

  @Test
  void isTheSameWithAnotherSeedWhereNobodyUsesIt() {
    Scenario scenario = with("delay");
    assertEquals(run(scenario, 1), run(scenario, 2));
  }

  @Test
  void isAnotherWhenSomethingElseIsDone() {
    assertNotEquals(run(with("delay"), 1), run(with("open"), 1));
  }

  @Test
  void isTheSameInThreadsAtOnce() throws Exception {
    Scenario scenario = with("chatter");
    int threads = 2;
    CyclicBarrier together = new CyclicBarrier(threads);
    Callable<String> run =
        () -> {
          together.await();
          return run(scenario, 1);
        };
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    try {
      Set<String> seen = new HashSet<>();
      for (Future<String> one : pool.invokeAll(Collections.nCopies(threads, run))) {
        seen.add(one.get());
      }
      assertEquals(Set.of(run(scenario, 1)), seen);
    } finally {
      pool.shutdownNow();
    }
  }
}
