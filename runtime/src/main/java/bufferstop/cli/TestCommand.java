package bufferstop.cli;

import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.FieldRun;
import bufferstop.plant.PlantCatalog;
import bufferstop.report.ReportFolder;
import bufferstop.report.VerdictText;
import bufferstop.rig.VirtualRig;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.ScenarioRun;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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

  @Option(names = "--seed", paramLabel = "N", description = "use this seed in every scenario")
  private Long seed;

  @Spec private CommandSpec spec;

  private record Ready(Scenario scenario, VirtualRig rig, ScenarioRun run) {}

  @Override
  public Integer call() throws IOException {
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = argument.plants(problems);
    Project project = argument.load(problems);
    List<Scenario> scenarios = project == null ? List.of() : scenarios(project, problems);
    if (project != null && scenarios.isEmpty() && !problems.hasErrors()) {
      spec.commandLine().getErr().println("no scenario in " + project.scenarios());
      return Exit.NOT_LOADED;
    }
    List<Ready> ready = link(project, plants, scenarios, problems);
    if (problems.hasErrors()) {
      Said.problems(problems, spec.commandLine().getErr());
      return Exit.NOT_LOADED;
    }
    return run(project, ready);
  }

  private List<Scenario> scenarios(Project project, Diagnostics problems) {
    List<Scenario> scenarios = new ArrayList<>();
    for (Path file : files.isEmpty() ? ScenarioFiles.of(project) : files) {
      scenarios.addAll(ScenarioLoader.read(file, seed, problems));
    }
    return scenarios;
  }

  private static List<Ready> link(
      Project project, PlantCatalog plants, List<Scenario> scenarios, Diagnostics problems) {
    List<Ready> ready = new ArrayList<>();
    for (Scenario scenario : scenarios) {
      VirtualRig rig = VirtualRig.build(project, plants, scenario, problems);
      if (rig != null) {
        ready.add(new Ready(scenario, rig, ScenarioRun.link(scenario, rig, problems)));
      }
    }
    return ready;
  }

  private int run(Project project, List<Ready> ready) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    ReportFolder folder = report == null ? null : new ReportFolder(report);
    List<ScenarioResult> results = new ArrayList<>();
    for (Ready one : ready) {
      ScenarioResult result = one.run.run();
      results.add(result);
      out.println(VerdictText.line(result));
      out.print(VerdictText.details(result));
      out.flush();
      if (folder != null) {
        for (FieldRun.Picture picture : one.rig.pictures()) {
          folder.writePicture(one.scenario.name(), picture.name(), picture.svg());
        }
      }
    }
    if (folder != null) {
      folder.write(project, Main.Version.number(), results);
      out.println("report: " + report);
    }
    out.println(summary(results));
    out.flush();
    boolean all = results.stream().allMatch(r -> r.verdict() == Verdict.PASSED);
    return all ? Exit.OK : Exit.NOT_PROVEN;
  }

  private static String summary(List<ScenarioResult> results) {
    StringBuilder line = new StringBuilder();
    for (Verdict verdict : Verdict.values()) {
      long count = results.stream().filter(r -> r.verdict() == verdict).count();
      line.append(line.length() == 0 ? "" : ", ").append(count).append(' ').append(verdict.word());
    }
    return line.toString();
  }
}
