package bufferstop.cli;

import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.report.ReportFolder;
import bufferstop.report.VerdictText;
import bufferstop.rig.Batch;
import bufferstop.rig.Rig;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code test}: runs scenarios in virtual time. */
@Command(
    name = "test",
    description = "Runs scenarios in virtual time; exits with 1 unless all pass.",
    mixinStandardHelpOptions = true)
final class TestCommand implements Callable<Integer> {
  @Mixin private ProjectArgument argument;

  @Parameters(
      index = "1..*",
      paramLabel = "SCENARIO",
      description = "scenario files (default: all in the project's scenarios folder)")
  private List<Path> files = new ArrayList<>();

  @Option(names = "--report", paramLabel = "DIR", description = "write the evidence here")
  private Path report;

  @Option(
      names = "--trace",
      paramLabel = "DIR",
      description = "write the full trace of each scenario here")
  private Path traces;

  @Option(names = "--seed", paramLabel = "N", description = "use this seed in every scenario")
  private Long seed;

  @Option(
      names = "--filter",
      paramLabel = "TEXT",
      description = "only scenarios with this in their name, file or requirement")
  private String filter = "";

  @Option(
      names = "--tag",
      paramLabel = "TAG",
      description = "only scenarios with this tag; may be repeated, then one of them is enough")
  private List<String> tags = new ArrayList<>();

  @Option(names = "--fail-fast", description = "end with the first scenario that does not pass")
  private boolean failFast;

  @Option(
      names = "--jobs",
      paramLabel = "N",
      description = "scenarios at once (default: one for each processor)")
  private int jobs = Runtime.getRuntime().availableProcessors();

  @Option(
      names = "--watch",
      description = "go on: run again what a saved file affects, until Ctrl-C")
  private boolean watch;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = argument.plants(problems);
    Project project = argument.load(problems);
    Rig sound = project == null ? null : Rig.build(project, plants, 1, problems);
    List<Scenario> scenarios = project == null ? List.of() : scenarios(project, problems);
    if (project != null && scenarios.isEmpty() && !problems.hasErrors()) {
      String which = filter.isEmpty() && tags.isEmpty() ? "" : " is asked for";
      spec.commandLine().getErr().println("no scenario in " + project.scenarios() + which);
      return Exit.NOT_LOADED;
    }
    if (project != null) {
      Batch.check(project, plants, sound, scenarios, problems);
    }
    boolean loaded = !problems.hasErrors();
    if (!loaded) {
      Said.problems(problems, spec.commandLine().getErr());
    }
    boolean all = loaded && run(project, plants, scenarios);
    if (watch && project != null) {
      watch(plants, project, scenarios);
    }
    return all ? Exit.OK : loaded ? Exit.NOT_PROVEN : Exit.NOT_LOADED;
  }

  private List<Scenario> scenarios(Project project, Diagnostics problems) {
    List<Scenario> scenarios = new ArrayList<>();
    for (Path file : files.isEmpty() ? ScenarioFiles.of(project) : files) {
      for (Scenario scenario : ScenarioLoader.read(file, seed, problems)) {
        if (isAskedFor(scenario)) {
          scenarios.add(scenario);
        }
      }
    }
    return scenarios;
  }

  private boolean isAskedFor(Scenario scenario) {
    String text = scenario.name() + "\n" + scenario.file() + "\n" + scenario.requirement();
    boolean named = text.toLowerCase(Locale.ROOT).contains(filter.toLowerCase(Locale.ROOT));
    boolean tagged =
        tags.isEmpty()
            || tags.stream().anyMatch(t -> scenario.tags().stream().anyMatch(t::equalsIgnoreCase));
    return named && tagged;
  }

  /** Runs them; returns whether all passed. */
  private boolean run(Project project, PlantCatalog plants, List<Scenario> scenarios)
      throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    ReportFolder folder = report == null ? null : new ReportFolder(report);
    if (traces != null) {
      Files.createDirectories(traces);
    }
    List<ScenarioResult> results = new ArrayList<>();
    Progress progress = Progress.onTerminal(out, scenarios.size());
    new Batch(project, plants, Math.max(1, jobs), traces)
        .run(
            scenarios,
            finished -> {
              ScenarioResult result = finished.result();
              results.add(result);
              progress.clear();
              say(result, scenarios, out);
              progress.step();
              out.flush();
              writePictures(folder, finished);
              return !failFast || result.verdict() == Verdict.PASSED;
            });
    if (folder != null) {
      folder.write(project, Main.Version.number(), results);
      out.println("report: " + report);
    }
    out.println(summary(results));
    out.flush();
    return results.stream().allMatch(r -> r.verdict() == Verdict.PASSED);
  }

  private void say(ScenarioResult result, List<Scenario> all, PrintWriter out) {
    out.println(VerdictText.line(result));
    out.print(VerdictText.details(result));
    if (traces != null) {
      out.println("  trace: " + Batch.trace(traces, result.scenario()));
    } else if (result.verdict() != Verdict.PASSED) {
      out.println("  with a full trace: " + rerun(result.scenario(), all));
    }
  }

  /** The command that runs one scenario alone and keeps its trace. */
  private String rerun(Scenario scenario, List<Scenario> all) {
    boolean alone = all.stream().filter(s -> s.file().equals(scenario.file())).count() == 1;
    String name = " --filter '" + scenario.name().replace("'", "'\\''") + "'";
    return "bufferstop test "
        + argument.place()
        + " "
        + scenario.file()
        + (alone ? "" : name)
        + (seed == null ? "" : " --seed " + seed)
        + " --trace traces";
  }

  private static void writePictures(ReportFolder folder, Batch.Finished finished) {
    if (folder != null) {
      try {
        for (var picture : finished.pictures()) {
          folder.writePicture(finished.result().scenario().name(), picture.name(), picture.svg());
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static String summary(List<ScenarioResult> results) {
    StringBuilder line = new StringBuilder();
    for (Verdict verdict : Verdict.values()) {
      long count = results.stream().filter(r -> r.verdict() == verdict).count();
      line.append(line.length() == 0 ? "" : ", ").append(count).append(' ').append(verdict.word());
    }
    return line.toString();
  }

  /** Until the process is ended: waits for files to change, runs what they affect. */
  private void watch(PlantCatalog plants, Project first, List<Scenario> begun) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    Project project = first;
    List<Scenario> known = begun;
    FileWatch files = new FileWatch();
    while (true) {
      files.watch(watched(project, known), project.scenarios());
      out.println("watching; Ctrl-C ends it");
      out.flush();
      Set<String> changed = files.await();
      Diagnostics problems = new Diagnostics();
      boolean whole = project.sources().stream().anyMatch(s -> changed.contains(s.file()));
      Project next = whole ? argument.load(problems) : project;
      Rig sound = next == null ? null : Rig.build(next, plants, 1, problems);
      List<Scenario> all = next == null ? List.of() : scenarios(next, problems);
      List<Scenario> affected =
          all.stream()
              .filter(s -> whole || s.reads().stream().anyMatch(changed::contains))
              .toList();
      if (next != null) {
        Batch.check(next, plants, sound, affected, problems);
        project = next;
        known = all.isEmpty() ? known : all;
      }
      out.println("changed: " + String.join(", ", changed));
      if (problems.hasErrors()) {
        Said.problems(problems, out);
      } else {
        run(next, plants, affected);
      }
    }
  }

  private static Set<String> watched(Project project, List<Scenario> scenarios) {
    Set<String> watched = new TreeSet<>();
    project.sources().forEach(s -> watched.add(s.file()));
    scenarios.forEach(s -> watched.addAll(s.reads()));
    return watched;
  }
}
