package bufferstop.cli;

import bufferstop.engine.ScanFailure;
import bufferstop.engine.ScanStatistics;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import bufferstop.report.AlarmText;
import bufferstop.report.StatisticsText;
import bufferstop.report.VerdictText;
import bufferstop.rig.LiveRun;
import bufferstop.rig.Rig;
import bufferstop.st.ExpressionReader;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code run}: the controller in real time. */
@Command(
    name = "run",
    description = "Runs the controller in real time until Ctrl-C and serves its hmi map.",
    mixinStandardHelpOptions = true)
final class RunCommand implements Callable<Integer> {
  private static final int BUFFER = 1 << 16;

  @Mixin private ProjectArgument argument;

  @Option(
      names = "--for",
      paramLabel = "TIME",
      description = "ends the run: T#30s, or 30s for short")
  private String duration;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "seed of the plants")
  private long seed;

  /** What stands at the other end of the wires. */
  enum Io {
    PLANT,
    NONE
  }

  @Option(
      names = "--io",
      defaultValue = "plant",
      description =
          "plant closes the loop through the simulated plant, none leaves inputs FALSE or 0"
              + " (default: ${DEFAULT-VALUE})")
  private Io io;

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description = "write down everything that comes from outside, for `replay`")
  private Path record;

  @Option(
      names = "--trace",
      paramLabel = "FILE",
      description = "write the full trace here while the controller runs")
  private Path traceFile;

  @Option(
      names = "--console",
      description =
          "take commands from standard input even where it is no terminal; on a terminal they are"
              + " taken anyway")
  private boolean console;

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
    long forMicros = duration(problems);
    Rig rig = argument.rig(seed, p -> io == Io.NONE ? p.withoutField() : p, problems);
    if (problems.hasErrors()) {
      Said.problems(problems, err);
      return Exit.NOT_LOADED;
    }
    try (StateFolder state = StateFolder.open(rig, stateFolder, err)) {
      List<String> broughtBack = state.bringBack(rig, cold);
      try (LiveRun run = new LiveRun(rig, trace())) {
        int port = open(rig, run, err);
        if (port < 0) {
          return Exit.RUN_FAILED;
        }
        if (record != null) {
          run.record(record, Main.Version.number(), seed, io == Io.PLANT, state.broughtBack());
        }
        sayBeginning(rig, port, run.securePort(), out);
        broughtBack.forEach(out::println);
        out.flush();
        state.begin(rig);
        return scan(rig, run, state, forMicros, out, err);
      }
    }
  }

  private OutputStream trace() throws IOException {
    return traceFile == null
        ? null
        : new BufferedOutputStream(Files.newOutputStream(traceFile), BUFFER);
  }

  private long duration(Diagnostics problems) {
    if (duration == null) {
      return 0;
    }
    boolean literal = duration.contains("#");
    SourceText text = SourceText.onLine(literal ? duration : "T#" + duration, "--for", 1, 1);
    Long micros = ExpressionReader.literal(text, Type.TIME, problems);
    return micros == null ? 0 : Math.max(1, micros);
  }

  private int finish(LiveRun run, int status, PrintWriter out, PrintWriter err) {
    try {
      String sha256 = run.finish();
      if (record != null) {
        out.println("recording: " + record + ", trace " + sha256);
      }
      return status;
    } catch (IOException e) {
      err.println("bufferstop: the recording is not whole: " + Said.plainly(e));
      err.flush();
      return Exit.RUN_FAILED;
    }
  }

  private static int open(Rig rig, LiveRun run, PrintWriter err) {
    try {
      return run.open();
    } catch (IOException e) {
      err.println("bufferstop: " + e.getMessage());
      err.flush();
      return -1;
    }
  }

  private static void sayBeginning(Rig rig, int port, int securePort, PrintWriter out) {
    String why =
        rig.project().field().plants().isEmpty()
            ? "nothing is wired"
            : "the loop is closed through the simulated plant";
    out.println("real outputs driven: none (" + why + ")");
    out.println("Bufferstop " + Main.Version.number() + " runs " + rig.project().name());
    ModbusMap map = rig.map("hmi");
    if (map != null) {
      ListenerText.print(rig.maps(), port, securePort, out);
    }
    out.println(
        "caution: this proves logic on the bench; it is no safety system. Emergency stop, guards"
            + " and protective relays act on their own hardware; local codes and licensed practice"
            + " decide.");
    out.flush();
  }

  private int scan(
      Rig rig, LiveRun run, StateFolder state, long forMicros, PrintWriter out, PrintWriter err) {
    int[] status = {Exit.OK};
    Signals signals = Signals.onEnd(run::stop, () -> status[0]);
    boolean commands = console || System.console() != null;
    StatusLine line = commands ? null : StatusLine.onTerminal(rig, run.statistics(), out);
    LiveConsole hands = commands ? LiveConsole.start(rig, run, out) : null;
    try {
      run.scan(forMicros);
    } catch (ScanFailure e) {
      err.println("bufferstop: outputs are safe, the run ended: " + e.getMessage());
      err.flush();
      status[0] = Exit.RUN_FAILED;
    } finally {
      if (line != null) {
        line.end();
      }
      if (hands != null) {
        hands.end();
      }
    }
    state.close();
    status[0] = finish(run, status[0], out, err);
    ScanStatistics statistics = run.statistics();
    out.print(StatisticsText.render(statistics, rig.project().periodMicros()));
    out.print(VerdictText.bypasses(run.bypasses()));
    out.print(AlarmText.summary(run.alarms()));
    if (!rig.firstError().isEmpty()) {
      out.println("errors in expressions; the first: " + rig.firstError());
    }
    out.flush();
    signals.workEnded();
    return status[0];
  }
}
