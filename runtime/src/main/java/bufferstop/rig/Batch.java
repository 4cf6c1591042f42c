package bufferstop.rig;

import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.FieldRun;
import bufferstop.plant.PlantCatalog;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.ScenarioRun;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Predicate;

/**
 * Runs many scenarios in virtual time, several at once, each on a rig of its own: what one comes to
 * does not depend on the others. Holds the results of no more than are under way.
 */
public final class Batch {
  private static final int AHEAD = 4; // scenarios under way for each thread
  private static final int BUFFER = 1 << 16;

  private final Project project;
  private final PlantCatalog catalog;
  private final int threads;
  private final Path traces;

  /** One scenario that has been run, and the plants as they stood at its end. */
  public record Finished(ScenarioResult result, List<FieldRun.Picture> pictures) {}

  /**
   * @param threads how many scenarios run at once, at least 1
   * @param traces folder for a trace of each; null for none
   */
  public Batch(Project project, PlantCatalog catalog, int threads, Path traces) {
    this.project = project;
    this.catalog = catalog;
    this.threads = threads;
    this.traces = traces;
  }

  /**
   * Reports what is wrong with scenarios; none may be run if anything is.
   *
   * @param sound the project put together; null when it cannot be, and nothing is linked then
   */
  public static void check(
      Project project,
      PlantCatalog catalog,
      Rig sound,
      List<Scenario> scenarios,
      Diagnostics problems) {
    VirtualRig shared = sound == null ? null : new VirtualRig(sound);
    for (Scenario scenario : scenarios) {
      VirtualRig rig =
          shared == null || scenario.settings().isEmpty()
              ? shared
              : VirtualRig.build(project, catalog, scenario, problems);
      if (rig != null) {
        ScenarioRun.link(scenario, rig, problems);
      }
    }
  }

  /**
   * Runs scenarios that {@link #check} found no fault with.
   *
   * @param goOn called with each result in the order of the scenarios; whether to go on
   * @throws UncheckedIOException when a trace cannot be written
   */
  public void run(List<Scenario> scenarios, Predicate<Finished> goOn) {
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    try {
      Deque<Future<Finished>> underWay = new ArrayDeque<>();
      Iterator<Scenario> waiting = scenarios.iterator();
      boolean more = true;
      while (more && (waiting.hasNext() || !underWay.isEmpty())) {
        while (waiting.hasNext() && underWay.size() < AHEAD * threads) {
          Scenario next = waiting.next();
          underWay.addLast(pool.submit(() -> one(next)));
        }
        more = goOn.test(underWay.removeFirst().get());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }

  private Finished one(Scenario scenario) throws IOException {
    Diagnostics problems = new Diagnostics();
    try (VirtualRig rig = VirtualRig.build(project, catalog, scenario, trace(scenario), problems)) {
      ScenarioResult result = ScenarioRun.link(scenario, rig, problems).run();
      return new Finished(result, rig.pictures());
    }
  }

  private OutputStream trace(Scenario scenario) throws IOException {
    return traces == null
        ? null
        : new BufferedOutputStream(Files.newOutputStream(trace(traces, scenario)), BUFFER);
  }

  /** The file in a folder that a scenario's trace goes to. */
  public static Path trace(Path folder, Scenario scenario) {
    return folder.resolve(scenario.slug() + ".bstrace");
  }
}
