package bufferstop.cli;

import bufferstop.model.NearNames;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.trace.CsvExport;
import bufferstop.trace.TraceReader;
import bufferstop.trace.VcdExport;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code trace}: questions to a trace, and its export. */
@Command(
    name = "trace",
    description = {
      "Answers questions about a trace, or exports it.",
      "Without a question it tells what the trace holds."
    },
    mixinStandardHelpOptions = true)
final class TraceCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "FILE", description = "a trace that `test --trace` wrote")
  private Path file;

  @Option(
      names = "--value",
      paramLabel = "NAME",
      description = "what it is; `*` stands for any part of a name; may be repeated")
  private List<String> values = new ArrayList<>();

  @Option(
      names = "--changes",
      paramLabel = "NAME",
      description = "when it changed, and to what; may be repeated")
  private List<String> changes = new ArrayList<>();

  @Option(names = "--happened", description = "steps, trips, alarms, faults, writes, plant events")
  private boolean happened;

  @Option(names = "--at", paramLabel = "TIME", description = "for --value (default: the end)")
  private String at;

  @Option(names = "--from", paramLabel = "TIME", description = "for --changes and --happened")
  private String from;

  @Option(names = "--to", paramLabel = "TIME", description = "for --changes and --happened")
  private String to;

  @Option(names = "--vcd", paramLabel = "FILE", description = "export as a value change dump")
  private Path vcd;

  @Option(names = "--csv", paramLabel = "FILE", description = "export as comma-separated values")
  private Path csv;

  @Option(
      names = "--points",
      split = ",",
      paramLabel = "NAME",
      description = "what is exported, in that order (default: everything)")
  private List<String> points = new ArrayList<>();

  @Option(names = "--on-change", description = "with --csv: only rows in which something changed")
  private boolean onChange;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    if (vcd != null) {
      try (TraceReader trace = open();
          Writer to = Files.newBufferedWriter(vcd)) {
        VcdExport.write(trace, chosen(trace, points), to);
      }
    }
    if (csv != null) {
      try (TraceReader trace = open();
          Writer to = Files.newBufferedWriter(csv)) {
        CsvExport.write(trace, chosen(trace, points), onChange, to);
      }
    }
    try (TraceReader trace = open()) {
      if (!values.isEmpty()) {
        tellValues(trace, out);
      } else if (!changes.isEmpty() || happened) {
        tellChanges(trace, out);
      } else if (vcd == null && csv == null) {
        summary(trace, out);
      }
    }
    out.flush();
    return Exit.OK;
  }

  private TraceReader open() {
    try {
      return TraceReader.open(file);
    } catch (IOException e) {
      throw new ParameterException(
          spec.commandLine(),
          Files.exists(file) ? file + ": " + e.getMessage() : "there is no file " + file);
    }
  }

  private long time(String given, long otherwise) {
    if (given == null) {
      return otherwise;
    }
    Long micros = CommandTime.micros(given);
    if (micros == null) {
      throw new ParameterException(
          spec.commandLine(), "`" + given + "` is no time; expected T#1m30s, or 90s for short");
    }
    return micros;
  }

  /** The values that some names mean; all of them for none. */
  private List<Symbol> chosen(TraceReader trace, List<String> names) {
    if (names.isEmpty()) {
      return trace.values();
    }
    List<Symbol> chosen = new ArrayList<>();
    for (String name : names) {
      String wanted = Pattern.quote(name.toLowerCase(Locale.ROOT)).replace("*", "\\E.*\\Q");
      List<Symbol> found =
          trace.values().stream()
              .filter(s -> s.name().toLowerCase(Locale.ROOT).matches(wanted))
              .toList();
      if (found.isEmpty()) {
        List<String> known = trace.values().stream().map(Symbol::name).toList();
        String near = NearNames.question(name, known);
        throw new ParameterException(
            spec.commandLine(),
            "the trace holds nothing named `" + name + "`" + (near.isEmpty() ? "" : "; " + near));
      }
      chosen.addAll(found);
    }
    return chosen;
  }

  private void tellValues(TraceReader trace, PrintWriter out) throws IOException {
    List<Symbol> chosen = chosen(trace, values);
    long moment = time(at, Long.MAX_VALUE);
    long[] image = null;
    long[] since = new long[trace.symbols().size()];
    while (trace.next() && trace.nowMicros() <= moment) {
      image = image == null ? new long[trace.cells().length] : image;
      System.arraycopy(trace.cells(), 0, image, 0, image.length);
      for (int i = 0; i < trace.changes(); i++) {
        since[trace.changed(i)] = trace.nowMicros();
      }
    }
    for (Symbol symbol : image == null ? List.<Symbol>of() : chosen) {
      out.println(
          symbol.name()
              + " = "
              + Values.shown(symbol, image)
              + " since "
              + Values.time(since[symbol.index()]));
    }
  }

  private void tellChanges(TraceReader trace, PrintWriter out) throws IOException {
    List<Symbol> chosen = changes.isEmpty() ? List.of() : chosen(trace, changes);
    boolean[] wanted = new boolean[trace.symbols().size()];
    chosen.forEach(s -> wanted[s.index()] = true);
    long first = time(from, 0);
    long last = time(to, Long.MAX_VALUE);
    while (trace.next() && trace.nowMicros() <= last) {
      if (trace.nowMicros() >= first) {
        for (String event : happened ? trace.events() : List.<String>of()) {
          out.println(Values.time(trace.nowMicros()) + "  " + event);
        }
        for (int i = 0; i < trace.changes(); i++) {
          Symbol symbol = trace.symbols().get(trace.changed(i));
          long bits = trace.cells()[symbol.index()];
          if (wanted[symbol.index()] || happened && isEvent(symbol, bits)) {
            out.println(
                Values.time(trace.nowMicros())
                    + "  "
                    + symbol.name()
                    + " = "
                    + Values.shown(symbol, trace.cells()));
          }
        }
      }
    }
  }

  /** Steps that begin; trips, alarms and hazards that come or go. */
  private static boolean isEvent(Symbol symbol, long bits) {
    String name = symbol.name();
    boolean step = name.endsWith(".X") && bits != 0;
    boolean state = name.endsWith(".tripped") || name.startsWith("hazards.");
    boolean alarm = name.startsWith("alarms.") && name.endsWith(".active");
    return symbol.type() == Type.BOOL && (step || state || alarm);
  }

  private void summary(TraceReader trace, PrintWriter out) throws IOException {
    long scans = 0;
    long told = 0;
    long changed = 0;
    while (trace.next()) {
      scans++;
      told += trace.events().size();
      changed += trace.changes();
    }
    out.println("scan period " + Values.time(trace.periodMicros()));
    out.println(scans + " scans, the last at " + Values.time(Math.max(0, trace.nowMicros())));
    out.println(trace.values().size() + " values, " + changed + " changes, " + told + " events");
    out.println("sha256 " + Digests.sha256(file) + ", " + Files.size(file) + " bytes");
    if (trace.isCut()) {
      out.println("the file ends in the middle of a scan");
    }
  }
}
