package bufferstop.cli;

import bufferstop.model.Diagnostics;
import bufferstop.model.PlantSide;
import bufferstop.rig.LiveRun;
import bufferstop.rig.PlantFace;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code plant}: the plant in real time, for a controller that is not ours. */
@Command(
    name = "plant",
    description =
        "Runs the plant in real time until Ctrl-C for another controller, which asks the devices of"
            + " the field map; with --plc it is asked itself.",
    mixinStandardHelpOptions = true)
final class PlantCommand implements Callable<Integer> {
  @Mixin private ProjectArgument argument;
  @Mixin private LiveOptions options;

  @Option(
      names = "--plc",
      description = "the controller is a server: ask and write it as the map `plc` says")
  private boolean plc;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Diagnostics problems = new Diagnostics();
    long forMicros = options.duration(spec);
    List<String> unwatched = new ArrayList<>();
    Rig rig =
        argument.rig(
            options.seed(),
            project -> {
              PlantSide side = PlantSide.of(project);
              unwatched.addAll(side.unwatched());
              return side.project();
            },
            problems);
    if (problems.hasErrors()) {
      Said.problems(problems, err);
      return Exit.NOT_LOADED;
    }
    String face = plc ? "plc" : "field";
    if (rig.map(face) == null) {
      throw new ParameterException(
          spec.commandLine(),
          rig.project().name() + " has no map `" + face + "` under `modbus` for its controller");
    }
    PlantFace controller = new PlantFace(rig, face);
    try (LiveRun run = new LiveRun(rig, options.trace())) {
      LiveSession session = new LiveSession(rig, run, out, err);
      if (!open(controller, err)) {
        return Exit.RUN_FAILED;
      }
      run.pauseWhile(controller::isPaused);
      out.println("Bufferstop " + Main.Version.number() + " plays " + rig.project().name());
      controller.places().forEach(out::println);
      if (!unwatched.isEmpty()) {
        out.println(
            "not watched, only the controller knows what they name: "
                + String.join(", ", unwatched));
      }
      out.println(LiveSession.CAUTION);
      out.flush();
      return session.scan(
          forMicros,
          options.commands(),
          null,
          () -> {
            controller.close();
            return Exit.OK;
          },
          controller::figures);
    } finally {
      controller.close();
    }
  }

  private static boolean open(PlantFace controller, PrintWriter err) {
    try {
      controller.open();
      return true;
    } catch (IOException e) {
      err.println("bufferstop: " + e.getMessage());
      err.flush();
      return false;
    }
  }
}
