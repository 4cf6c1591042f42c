package bufferstop.cli;

import bufferstop.load.RecordingLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Point;
import bufferstop.model.Project;
import bufferstop.model.Recording;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.report.RecordingScenario;
import bufferstop.rig.LiveRun;
import bufferstop.rig.RecordedProject;
import bufferstop.rig.Replay;
import bufferstop.rig.Rig;
import bufferstop.scenario.DeedText;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code replay}: a recording run again. */
@Command(
    name = "replay",
    description =
        "Runs a recording again, bit for bit, as fast as the machine allows; exits with 1 when it"
            + " is not the run that was recorded.",
    mixinStandardHelpOptions = true)
final class ReplayCommand implements Callable<Integer> {
  private static final int BUFFER = 1 << 16;

  @Mixin private ProjectArgument argument;

  @Parameters(index = "1", paramLabel = "RECORDING", description = "what `run --record` wrote")
  private Path file;

  @Option(
      names = "--until",
      paramLabel = "TIME",
      description = "stop at this moment and tell how things stand")
  private String until;

  @Option(
      names = "--show",
      paramLabel = "NAME",
      description = "tell this value at the end; may be repeated")
  private List<String> shown = new ArrayList<>();

  @Option(names = "--trace", paramLabel = "FILE", description = "write the full trace here")
  private Path traceFile;

  @Option(
      names = "--save",
      paramLabel = "FILE",
      description = "write everything up to --until as a scenario")
  private Path save;

  @Option(
      names = "--from",
      paramLabel = "TIME",
      description = "with --save: what is expected is judged from here on")
  private String from;

  @Option(
      names = "--for",
      paramLabel = "TIME",
      description = "with --save: how long the scenario runs (default: as long as the replay)")
  private String duration;

  @Option(
      names = "--expect",
      paramLabel = "EXPECTATION",
      description =
          "with --save: as in a scenario, for instance 'never: x > 3'; may be repeated"
              + " (default: never any hazard of the project)")
  private List<String> expectations = new ArrayList<>();

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    Diagnostics problems = new Diagnostics();
    Recording recording = RecordingLoader.read(file, problems);
    Project project = recording == null ? null : argument.load(problems);
    if (project != null) {
      RecordedProject.compare(recording, project, problems);
    }
    Rig rig =
        project == null || problems.hasErrors()
            ? null
            : Rig.build(
                recording.withPlant() ? project : project.withoutField(),
                argument.plants(problems),
                recording.seed(),
                problems);
    Replay replay = rig == null ? null : Replay.link(recording, rig, trace(), problems);
    if (replay == null) {
      Said.problems(problems, spec.commandLine().getErr());
      return Exit.NOT_LOADED;
    }
    try (replay) {
      return run(recording, rig, replay, out);
    }
  }

  private OutputStream trace() throws IOException {
    return traceFile == null
        ? null
        : new BufferedOutputStream(Files.newOutputStream(traceFile), BUFFER);
  }

  private int run(Recording recording, Rig rig, Replay replay, PrintWriter out) throws IOException {
    long began = System.nanoTime();
    replay.run(time(until, Long.MAX_VALUE));
    double seconds = (System.nanoTime() - began) / 1e9;
    double virtual = (replay.nowMicros() + rig.project().periodMicros()) / 1e6;
    out.printf(
        Locale.ROOT,
        "replayed %d scans; %.0f s in %.2f s, %.0f x real time%n",
        replay.scans(),
        virtual,
        seconds,
        virtual / seconds);
    if (recording.sha256().isEmpty()) {
      long last = recording.lastPeriod() * rig.project().periodMicros();
      out.println("the recording was cut off; it is known up to " + Values.time(last));
    }
    if (until != null || !shown.isEmpty()) {
      tellState(rig, replay, out);
    }
    if (save != null) {
      save(recording, rig, replay);
      out.println("scenario: " + save);
    }
    int status = verdict(recording, rig, replay, out);
    out.flush();
    return status;
  }

  private static int verdict(Recording recording, Rig rig, Replay replay, PrintWriter out) {
    boolean whole =
        !recording.sha256().isEmpty()
            && replay.nowMicros() == recording.lastPeriod() * rig.project().periodMicros();
    String sha256 = replay.traceSha256();
    out.println("trace " + sha256);
    if (replay.partedAtMicros() >= 0) {
      out.println(
          "this is not the run that was recorded: they part before "
              + Values.time(replay.partedAtMicros()));
      return Exit.NOT_PROVEN;
    }
    if (whole && !sha256.equals(recording.sha256())) {
      out.println("this is not the run that was recorded: trace " + recording.sha256());
      return Exit.NOT_PROVEN;
    }
    out.println(whole ? "the same as was recorded" : "the same as was recorded up to here");
    return Exit.OK;
  }

  private void tellState(Rig rig, Replay replay, PrintWriter out) {
    out.println("at " + Values.time(replay.nowMicros()));
    for (Symbol symbol : rig.layout().observable()) {
      boolean step = symbol.type() == Type.BOOL && symbol.name().endsWith(".X");
      boolean alarm = symbol.name().startsWith("alarms.") && symbol.name().endsWith(".active");
      boolean trip = symbol.name().endsWith(".tripped");
      if ((step || alarm || trip) && replay.cells()[symbol.index()] != 0) {
        out.println("  " + symbol.name());
      }
    }
    LiveRun.active(rig).forEach(l -> out.println("  " + l));
    replay
        .lastHappenings()
        .forEach(h -> out.println("  " + Values.time(h.atMicros()) + "  " + h.text()));
    for (String name : shown) {
      Symbol symbol = rig.layout().field().find(name);
      if (symbol == null) {
        throw new ParameterException(spec.commandLine(), "nothing is called `" + name + "`");
      }
      out.println("  " + symbol.name() + " = " + Values.shown(symbol, replay.cells()));
    }
  }

  private void save(Recording recording, Rig rig, Replay replay) throws IOException {
    Map<String, String> initial = new TreeMap<>();
    for (Point point : rig.writable()) {
      Symbol symbol = rig.layout().field().find(point.name());
      initial.put(point.name(), DeedText.literal(symbol, point.initial()));
    }
    List<String> expected = new ArrayList<>(expectations);
    if (expected.isEmpty()) {
      for (Field.Hazard hazard : rig.project().field().hazards()) {
        expected.add("never: hazards." + hazard.name());
      }
    }
    if (expected.isEmpty()) {
      throw new ParameterException(
          spec.commandLine(), "the project has no hazard; say what is expected with --expect");
    }
    String name = "From the recording " + file.getFileName();
    Files.writeString(
        save,
        RecordingScenario.text(
            recording,
            name,
            rig.project().periodMicros(),
            time(from, 0),
            time(duration, replay.nowMicros()),
            initial,
            expected));
  }

  private long time(String given, long otherwise) {
    Long micros = given == null ? Long.valueOf(otherwise) : CommandTime.micros(given);
    if (micros == null) {
      throw new ParameterException(
          spec.commandLine(), "`" + given + "` is no time; expected T#1m30s, or 90s for short");
    }
    return micros;
  }
}
