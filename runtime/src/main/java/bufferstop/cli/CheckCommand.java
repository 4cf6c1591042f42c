package bufferstop.cli;

import bufferstop.load.ScenarioLoader;
import bufferstop.model.Code;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.report.DiagnosticJson;
import bufferstop.rig.Batch;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code check}: loads and validates, prints every problem. */
@Command(
    name = "check",
    description =
        "Loads a project and its scenarios and prints every problem with its place; or tells what a"
            + " code means.",
    mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  private static final String ALL = "";

  /** What is asked for. */
  private static final class Asked {
    @ArgGroup(exclusive = false)
    private ProjectArgument argument;

    @Option(
        names = "--explain",
        paramLabel = "CODE",
        arity = "0..1",
        fallbackValue = ALL,
        description = "what a kind of mistake means, and how to mend it; without CODE all of them")
    private String code;
  }

  @ArgGroup(multiplicity = "1")
  private Asked asked;

  /** How problems are printed. */
  enum Format {
    TEXT,
    JSON
  }

  @Option(
      names = "--format",
      defaultValue = "text",
      description = "text, or json with one object a line for editors (default: text)")
  private Format format;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    return asked.code == null ? check(asked.argument) : explain();
  }

  private int explain() {
    PrintWriter out = spec.commandLine().getOut();
    if (asked.code.equals(ALL)) {
      for (Code code : Code.values()) {
        out.printf("%-24s %s%n", code.word(), code.meaning());
      }
      return Exit.OK;
    }
    Code code = Code.of(asked.code).orElse(null);
    if (code == null) {
      List<String> words = Arrays.stream(Code.values()).map(Code::word).toList();
      String near = NearNames.question(asked.code, words);
      throw new ParameterException(
          spec.commandLine(),
          "no code `%s`%s; `check --explain` lists all"
              .formatted(asked.code, near.isEmpty() ? "" : ", " + near));
    }
    out.println(code.word());
    out.println("  what:  " + code.meaning());
    out.println("  why:   " + code.reason());
    out.println("  mend:  " + code.remedy());
    return Exit.OK;
  }

  private int check(ProjectArgument argument) throws IOException {
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = argument.plants(problems);
    Project project = argument.load(problems);
    if (project != null) {
      Rig sound =
          Rig.build(project, plants, 1, problems); // before scenarios add problems of theirs
      List<Scenario> scenarios = new ArrayList<>();
      for (Path file : ScenarioFiles.of(project)) {
        scenarios.addAll(ScenarioLoader.read(file, null, problems));
      }
      Batch.check(project, plants, sound, scenarios, problems);
    }
    PrintWriter out = spec.commandLine().getOut();
    if (format == Format.JSON) {
      out.print(DiagnosticJson.render(problems.sorted()));
      out.flush();
    } else {
      Said.problems(problems, out);
    }
    return problems.hasErrors() ? Exit.NOT_PROVEN : Exit.OK;
  }
}
