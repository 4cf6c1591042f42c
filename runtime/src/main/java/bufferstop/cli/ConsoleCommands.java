package bufferstop.cli;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Values;
import bufferstop.plant.FaultPanel.Possible;
import bufferstop.report.AlarmText;
import bufferstop.rig.LiveRun;
import bufferstop.rig.Rig;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import java.util.stream.IntStream;

/** What can be typed while a controller runs: faults, forces, the desk, writes, and questions. */
final class ConsoleCommands {
  static final String HELP =
      """
      fault PLACE NAME MODE [VALUE]   throws a fault; PLACE is wire, supply, node or plant
      clear PLACE NAME                clears all faults of it
      force NAME VALUE, unforce NAME  an input or output; unforce all
      press NAME, release NAME        a push button of the panel
      turn NAME POSITION              a selector of the panel
      write NAME VALUE                an operator point
      show NAME                       a value
      active                          faults that are on, points that are forced
      alarms                          how often each came, and what happened last
      status                          time, active steps, and the project's `status`
      quit                            ends the run, outputs safe
      """;
  private static final List<String> COMMANDS =
      List.of(
          "fault", "clear", "force", "unforce", "press", "release", "turn", "write", "show",
          "active", "alarms", "status", "help", "quit");
  private static final List<String> PLACES = List.of("wire", "supply", "node", "plant");
  private static final long PRESS_MICROS = 300_000;
  private static final long ANSWER_SECONDS = 5;

  private final Rig rig;
  private final LiveRun run;
  private final List<Possible> faults;
  private final StatusText status;

  ConsoleCommands(Rig rig, LiveRun run) {
    this.rig = rig;
    this.run = run;
    faults = rig.field().faults().possible();
    status = new StatusText(rig, run.statistics());
  }

  /** How the run stands. */
  StatusText status() {
    return status;
  }

  /** Does what a line says; what is to be printed, without a line end. */
  String perform(String line) {
    List<String> words = List.of(line.strip().split("\\s+"));
    String command = words.get(0).toLowerCase(Locale.ROOT);
    if (command.isEmpty()) {
      return "";
    }
    if (!COMMANDS.contains(command)) {
      String near = NearNames.question(command, COMMANDS);
      return "no command `" + command + "`; " + (near.isEmpty() ? "`help` lists them" : near);
    }
    return switch (command) {
      case "help" -> HELP.stripTrailing();
      case "active" -> answer(ConsoleCommands::active);
      case "alarms" -> answer(r -> AlarmText.journal(run.alarms()));
      case "show" -> show(words);
      case "status" -> String.join("\n", status.lines());
      case "quit" -> {
        run.stop();
        yield "ending";
      }
      default -> {
        Deed deed = deed(command, words, line);
        yield deed == null ? "usage: " + usage(command) : perform(deed);
      }
    };
  }

  private static String usage(String command) {
    return HELP.lines().filter(l -> l.contains(command + " ")).findFirst().orElse(HELP);
  }

  private String perform(Deed deed) {
    Diagnostics problems = new Diagnostics();
    if (run.perform(deed, problems)) {
      return "done";
    }
    StringBuilder said = new StringBuilder();
    for (Diagnostic problem : problems.sorted()) {
      said.append(said.isEmpty() ? "" : "; ").append(problem.message());
      said.append(problem.expected().isEmpty() ? "" : "; expected: " + problem.expected());
      said.append(problem.help().isEmpty() ? "" : "; " + problem.help());
    }
    return said.toString();
  }

  private static Name name(String text) {
    return new Name(text, Position.ofFile("console"));
  }

  /** Null when words are missing. */
  private static Deed deed(String command, List<String> words, String line) {
    int given = words.size() - 1;
    String rest = given < 2 ? "" : line.strip().split("\\s+", 3)[2];
    if (command.equals("fault")) {
      return given < 3 ? null : fault(words);
    }
    if (command.equals("clear")) {
      boolean known = given == 2 && PLACES.contains(words.get(1).toLowerCase(Locale.ROOT));
      return known ? new Scenario.Clear(target(words)) : null;
    }
    if (given == 1) {
      return switch (command) {
        case "unforce" ->
            new Scenario.Unforce(words.get(1).equalsIgnoreCase("all") ? null : name(words.get(1)));
        case "press" -> new Scenario.Press(name(words.get(1)), PRESS_MICROS);
        case "release" -> new Scenario.Release(name(words.get(1)));
        default -> null;
      };
    }
    if (given < 2) {
      return null;
    }
    List<Assignment> value = List.of(new Assignment(name(words.get(1)), SourceText.of(rest)));
    return switch (command) {
      case "force" -> new Scenario.Force(value);
      case "write" -> new Scenario.Write(value, false);
      case "turn" -> new Scenario.Turn(name(words.get(1)), name(words.get(2)));
      default -> null;
    };
  }

  private static Fault.Target target(List<String> words) {
    Fault.Place place = Fault.Place.valueOf(words.get(1).toUpperCase(Locale.ROOT));
    return new Fault.Target(place, name(words.get(2)));
  }

  private static Deed fault(List<String> words) {
    if (!PLACES.contains(words.get(1).toLowerCase(Locale.ROOT))) {
      return null;
    }
    SourceText value = words.size() > 4 ? SourceText.of(words.get(4)) : null;
    return new Scenario.Inject(new Fault(target(words), name(words.get(3)), value, 0), 0);
  }

  private static String active(Rig rig) {
    List<String> lines = LiveRun.active(rig);
    return lines.isEmpty() ? "nothing is on and nothing forced" : String.join("\n", lines);
  }

  private String answer(Function<Rig, String> question) {
    try {
      return run.ask(question).get(ANSWER_SECONDS, TimeUnit.SECONDS);
    } catch (ExecutionException | TimeoutException e) {
      return "the scan does not answer";
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return "";
    }
  }

  private String show(List<String> words) {
    if (words.size() < 2) {
      return "usage: " + usage("show");
    }
    Symbol symbol = rig.layout().field().find(words.get(1));
    if (symbol == null) {
      String near = NearNames.question(words.get(1), rig.layout().field().names());
      return "nothing is called `" + words.get(1) + "`" + (near.isEmpty() ? "" : "; " + near);
    }
    if (rig.snapshots().published() < 0) {
      return "no scan yet";
    }
    int[] all = IntStream.range(0, rig.layout().size()).toArray();
    long[] image = new long[all.length];
    rig.snapshots().copy(all, 0, all.length, image);
    return symbol.name() + " = " + Values.shown(symbol, image);
  }

  /** What may stand at a place of a line, the words before it being given. */
  List<String> candidates(List<String> before) {
    if (before.isEmpty()) {
      return COMMANDS;
    }
    String command = before.get(0).toLowerCase(Locale.ROOT);
    int at = before.size();
    return switch (command) {
      case "fault", "clear" ->
          at == 1
              ? PLACES
              : at == 2
                  ? names(before.get(1), "")
                  : at == 3 && command.equals("fault")
                      ? names(before.get(1), before.get(2))
                      : List.of();
      case "press", "release", "turn" ->
          at == 1
              ? rig.project().field().panel().stream().map(e -> "panel." + e.name()).toList()
              : List.of();
      case "force", "unforce" -> at == 1 ? inputsAndOutputs() : values(command);
      case "write" ->
          at == 1 ? rig.writable().stream().map(p -> p.name()).toList() : values(command);
      case "show" -> at == 1 ? List.copyOf(rig.layout().field().names()) : List.of();
      default -> List.of();
    };
  }

  private static List<String> values(String command) {
    return command.equals("unforce") ? List.of() : List.of("TRUE", "FALSE");
  }

  private List<String> inputsAndOutputs() {
    return rig.project().controller().points().stream()
        .filter(p -> p.kind() == Symbol.Kind.INPUT || p.kind() == Symbol.Kind.OUTPUT)
        .map(p -> p.name())
        .toList();
  }

  /** Names of a place, or the faults of one of them. */
  private List<String> names(String place, String name) {
    List<String> found = new ArrayList<>();
    for (Possible fault : faults) {
      boolean there = fault.place().name().equalsIgnoreCase(place);
      String word = name.isEmpty() ? fault.name() : fault.mode();
      boolean wanted = there && (name.isEmpty() || fault.name().equalsIgnoreCase(name));
      if (wanted && !found.contains(word)) {
        found.add(word);
      }
    }
    return found;
  }
}
