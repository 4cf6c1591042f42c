package bufferstop.cli;

import bufferstop.load.Grammar;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Shape;
import bufferstop.plant.PlantCatalog;
import bufferstop.report.SchemaJson;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code schema}: what a file may hold, for editors. */
@Command(
    name = "schema",
    description = "Prints the JSON Schema of a kind of file, or writes those of all kinds.",
    mixinStandardHelpOptions = true)
final class SchemaCommand implements Callable<Integer> {
  @Parameters(
      arity = "0..1",
      paramLabel = "KIND",
      description =
          "project, controller, library, scenario, setup, a section that stands in a file of its"
              + " own, or plant.MODEL")
  private String kind;

  @Option(
      names = "--to",
      paramLabel = "DIR",
      description = "write a file for each kind into this folder, KIND.schema.json")
  private Path folder;

  @Option(
      names = "--plants",
      paramLabel = "DIR",
      description = "folder with jars of further plant models; may be repeated")
  private List<Path> plantFolders = new ArrayList<>();

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Diagnostics problems = new Diagnostics();
    Map<String, Shape> kinds = kinds(PlantCatalog.find(plantFolders, problems));
    if (problems.hasErrors()) {
      Said.problems(problems, err);
      return Exit.NOT_LOADED;
    }
    if (folder != null && kind == null) {
      writeAll(kinds, out);
      return Exit.OK;
    }
    if (folder != null || kind == null || !kinds.containsKey(kind)) {
      complain(kinds, err);
      return Exit.NOT_LOADED;
    }
    SchemaJson.write(kind, kinds.get(kind), out);
    return Exit.OK;
  }

  private static Map<String, Shape> kinds(PlantCatalog plants) {
    Map<String, Shape> kinds = new LinkedHashMap<>(Grammar.files());
    for (String model : plants.names()) {
      kinds.put("plant." + model, new Shape.Of(plants.settings(model)));
    }
    return kinds;
  }

  private void complain(Map<String, Shape> kinds, PrintWriter err) {
    String found =
        folder != null && kind != null
            ? "either KIND, or --to DIR for all kinds"
            : kind == null ? "which kind of file?" : "no kind of file `" + kind + "`";
    String near = kind == null ? "" : NearNames.question(kind, kinds.keySet());
    err.println("bufferstop: " + found + (near.isEmpty() ? "" : "; " + near));
    err.println("  kinds: " + String.join(", ", kinds.keySet()));
    err.flush();
  }

  private void writeAll(Map<String, Shape> kinds, PrintWriter out) throws IOException {
    Files.createDirectories(folder);
    for (Map.Entry<String, Shape> each : kinds.entrySet()) {
      Path file = folder.resolve(each.getKey() + ".schema.json");
      try (Writer writer = Files.newBufferedWriter(file)) {
        SchemaJson.write(each.getKey(), each.getValue(), writer);
      }
      out.println(file);
    }
    out.flush();
  }
}
