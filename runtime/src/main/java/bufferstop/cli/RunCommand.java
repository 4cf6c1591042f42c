package bufferstop.cli;

import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.Project;
import bufferstop.rig.FieldBus;
import bufferstop.rig.LiveRun;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code run}: the controller in real time. */
@Command(
    name = "run",
    description = "Runs the controller in real time until Ctrl-C and serves its hmi map.",
    mixinStandardHelpOptions = true)
final class RunCommand implements Callable<Integer> {
  @Mixin private ProjectArgument argument;
  @Mixin private LiveOptions options;

  /** What stands at the other end of the wires. */
  enum Io {
    PLANT,
    FIELD,
    NONE
  }

  @Option(
      names = "--io",
      defaultValue = "plant",
      description =
          "plant closes the loop through the simulated plant, field asks and writes the devices of"
              + " the field map, none leaves inputs FALSE or 0 (default: ${DEFAULT-VALUE})")
  private Io io;

  @Option(
      names = "--real",
      paramLabel = "POINT",
      split = ",",
      description =
          "with --io plant: these inputs and outputs are on the devices of the field map, the"
              + " others stay simulated")
  private List<String> real = new ArrayList<>();

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description = "write down everything that comes from outside, for `replay`")
  private Path record;

  @Option(
      names = "--state",
      paramLabel = "DIR",
      description = "folder for what is retained (default: the folder `state` in the project)")
  private Path stateFolder;

  @Option(
      names = "--cold",
      description = "begin with the initial values, retained ones included; kept values are lost")
  private boolean cold;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Diagnostics problems = new Diagnostics();
    long forMicros = options.duration(spec);
    Rig rig = argument.rig(options.seed(), this::changed, problems);
    if (problems.hasErrors()) {
      Said.problems(problems, err);
      return Exit.NOT_LOADED;
    }
    checkReal(rig);
    try (StateFolder state = StateFolder.open(rig, stateFolder, err)) {
      List<String> broughtBack = state.bringBack(rig, cold);
      try (LiveRun run = new LiveRun(rig, options.trace());
          FieldBus bus = bus(rig)) {
        LiveSession session = new LiveSession(rig, run, out, err);
        int port = session.open();
        if (port < 0) {
          return Exit.RUN_FAILED;
        }
        if (record != null) {
          run.record(
              record, Main.Version.number(), options.seed(), io == Io.PLANT, state.broughtBack());
        }
        sayBeginning(rig, bus, port, run.securePort(), out);
        broughtBack.forEach(out::println);
        out.flush();
        state.begin(rig);
        bus.start();
        return session.scan(
            forMicros, options.commands(), record, () -> afterwards(state, bus, err), bus::figures);
      }
    }
  }

  private Project changed(Project project) {
    return io == Io.PLANT ? project : project.withoutField();
  }

  private FieldBus bus(Rig rig) {
    Predicate<String> isReal =
        switch (io) {
          case FIELD -> name -> true;
          case PLANT -> name -> real.stream().anyMatch(name::equalsIgnoreCase);
          case NONE -> name -> false;
        };
    return new FieldBus(rig, isReal);
  }

  private void checkReal(Rig rig) {
    if (io == Io.FIELD && rig.map("field") == null) {
      throw new ParameterException(
          spec.commandLine(),
          "--io field: " + rig.project().name() + " has no map `field` under `modbus`");
    }
    if (!real.isEmpty() && io != Io.PLANT) {
      throw new ParameterException(
          spec.commandLine(), "--real goes with --io plant; --io field makes every point real");
    }
    for (String name : real) {
      boolean mapped =
          rig.maps().stream()
              .filter(m -> m.face().equals("field"))
              .flatMap(m -> m.entries().stream())
              .anyMatch(e -> e.point().text().equalsIgnoreCase(name));
      if (!mapped) {
        throw new ParameterException(
            spec.commandLine(), "--real " + name + ": no such point in the map `field`");
      }
    }
    if (record != null && (io == Io.FIELD || !real.isEmpty())) {
      throw new ParameterException(
          spec.commandLine(), "--record does not write down what real inputs bring; leave it out");
    }
  }

  /** Outputs are safe in the image; real ones are so once their devices say it. */
  private static int afterwards(StateFolder state, FieldBus bus, PrintWriter err) {
    state.close();
    List<String> without = bus.awaitSafe();
    if (without.isEmpty()) {
      return Exit.OK;
    }
    err.println(
        "bufferstop: not acknowledged as safe by their device: " + String.join(", ", without));
    err.flush();
    return Exit.RUN_FAILED;
  }

  private static void sayBeginning(
      Rig rig, FieldBus bus, int port, int securePort, PrintWriter out) {
    sayOutputs(rig, bus, out);
    out.println("Bufferstop " + Main.Version.number() + " runs " + rig.project().name());
    ModbusMap map = rig.map("hmi");
    if (map != null) {
      ListenerText.print(rig.maps(), port, securePort, out);
    }
    out.println(LiveSession.CAUTION);
    out.flush();
  }

  private static void sayOutputs(Rig rig, FieldBus bus, PrintWriter out) {
    if (bus.outputs().isEmpty()) {
      String why =
          rig.project().field().plants().isEmpty()
              ? "nothing is wired"
              : "the loop is closed through the simulated plant";
      out.println("real outputs driven: none (" + why + ")");
      return;
    }
    out.println("real outputs driven: " + String.join(", ", bus.outputs()));
    if (!bus.unwatched().isEmpty()) {
      out.println(
          "warning: no watchdog makes these safe when this machine fails: "
              + String.join(", ", bus.unwatched()));
    }
  }
}
