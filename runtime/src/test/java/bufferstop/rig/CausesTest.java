package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Controller;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.SourceText;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every named cause of every interlock of these projects is needed: some scenario misses it. */
class CausesTest {
  private static final List<String> PROJECTS = List.of("brickworks", "level-crossing");

  /** One named cause of one interlock. */
  record Named(Project project, String interlock, String cause) {
    @Override
    public String toString() {
      return project.folder().getFileName() + ": " + interlock + "." + cause;
    }
  }

  static List<Named> causes() {
    List<Named> all = new ArrayList<>();
    for (String name : PROJECTS) {
      Project project = BrickworksTest.project(name);
      for (Interlock interlock : project.controller().interlocks()) {
        interlock.causes().forEach(c -> all.add(new Named(project, interlock.name(), c.name())));
      }
    }
    return all;
  }

  /** Disarmed, a trip never sees the cause; what is needed to start or to go on always holds. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("causes")
  void isMissedBySomeScenario(Named named) throws IOException {
    Project disarmed = disarm(named);
    for (Path file : likelyFirst(named)) {
      Scenario scenario = BrickworksTest.scenario(file);
      List<ExpectationResult> failed =
          BrickworksTest.run(disarmed, scenario).expectations().stream()
              .filter(e -> e.verdict() == Verdict.FAILED && !namesTheCause(e))
              .toList();
      if (!failed.isEmpty()) {
        System.out.printf("%s -> %s: %s%n", named, file.getFileName(), failed.get(0).text());
        return;
      }
    }
    assertTrue(false, () -> "no scenario misses " + named);
  }

  /** Such an expectation fails by its wording alone: it tells nothing of what the train does. */
  private static boolean namesTheCause(ExpectationResult expectation) {
    return expectation.text().contains(".first.") || expectation.text().contains("alarms.");
  }

  private static Project disarm(Named named) {
    Project careful = named.project;
    List<Interlock> interlocks = new ArrayList<>();
    int changed = 0;
    for (Interlock interlock : careful.controller().interlocks()) {
      boolean here = interlock.name().equals(named.interlock);
      changed += here ? 1 : 0;
      interlocks.add(here ? without(interlock, named.cause) : interlock);
    }
    assertEquals(1, changed);
    Controller c = careful.controller();
    Controller weaker =
        new Controller(
            c.definitions(),
            c.routines(),
            c.points(),
            c.blocks(),
            List.copyOf(interlocks),
            c.sequences(),
            c.logic(),
            c.alarms(),
            c.acknowledge());
    return new Project(
        careful.name(),
        careful.folder(),
        careful.scenarios(),
        careful.periodMicros(),
        careful.plantStepMicros(),
        careful.watchdogMicros(),
        careful.catchUpMicros(),
        weaker,
        careful.field(),
        careful.maps(),
        careful.status(),
        careful.billing(),
        careful.sources(),
        careful.sha256());
  }

  private static Interlock without(Interlock interlock, String cause) {
    SourceText never = SourceText.of(interlock.kind() == InterlockKind.TRIP ? "FALSE" : "TRUE");
    List<Cause> causes =
        interlock.causes().stream()
            .map(c -> c.name().equals(cause) ? Cause.plain(c.name(), never, c.position()) : c)
            .toList();
    return new Interlock(
        interlock.name(),
        interlock.kind(),
        causes,
        interlock.reset(),
        interlock.makesSafe(),
        interlock.group(),
        interlock.retain(),
        interlock.text(),
        interlock.position());
  }

  /** Scenarios that speak of the cause or the interlock first, then short ones. */
  private static List<Path> likelyFirst(Named named) throws IOException {
    return BrickworksTest.scenarios(named.project).stream()
        .sorted(
            Comparator.comparing((Path f) -> !text(f).contains("first." + named.cause))
                .thenComparing(f -> !text(f).contains(named.interlock))
                .thenComparing(f -> BrickworksTest.scenario(f).forMicros()))
        .toList();
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
