package bufferstop.report;

import bufferstop.model.Diagnostic;
import bufferstop.model.Position;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;

/** Renders problems for people: the place, the line, a mark under the span, and what to do. */
public final class DiagnosticText {
  private static final int LONGEST_LINE = 160;
  private static final Pattern CONTROL = Pattern.compile("\\p{Cntrl}");

  private final Map<String, List<String>> files = new TreeMap<>();

  /** All of them, one after the other, with a closing count. */
  public String render(List<Diagnostic> diagnostics) {
    StringBuilder out = new StringBuilder();
    for (Diagnostic diagnostic : diagnostics) {
      render(diagnostic, out);
    }
    return out.append(count(diagnostics)).append('\n').toString();
  }

  private void render(Diagnostic d, StringBuilder out) {
    String severity = d.severity().name().toLowerCase(Locale.ROOT);
    out.append(d.position()).append(": ").append(severity).append(": ");
    out.append(oneLine(d.message())).append('\n');
    excerpt(d.position(), out);
    if (!d.expected().isEmpty()) {
      out.append("  expected: ").append(oneLine(d.expected())).append('\n');
    }
    for (Diagnostic.Note note : d.notes()) {
      out.append("  note: ").append(note.position()).append(": ");
      out.append(oneLine(note.text())).append('\n');
    }
    if (!d.help().isEmpty()) {
      out.append("  help: ").append(oneLine(d.help())).append('\n');
    }
  }

  /** The line with a mark under the span; of a very long line, what is around the span. */
  private void excerpt(Position position, StringBuilder out) {
    int[] line = oneLine(line(position)).codePoints().toArray();
    if (line.length == 0) {
      return;
    }
    int at = Math.min(position.column() - 1, line.length);
    int from = line.length <= LONGEST_LINE ? 0 : Math.max(0, at - LONGEST_LINE / 2);
    int to = Math.min(line.length, from + LONGEST_LINE);
    int marks = Math.max(1, Math.min(position.length(), to - at));
    String before = from == 0 ? "" : "...";
    out.append(String.format(Locale.ROOT, "%5d | ", position.line())).append(before);
    out.append(new String(line, from, to - from)).append(to < line.length ? "..." : "");
    out.append("\n      | ").append(" ".repeat(before.length() + at - from));
    out.append("^".repeat(marks)).append('\n');
  }

  /** Tabs and other control characters, each as one blank, so that marks stay below their text. */
  private static String oneLine(String text) {
    return CONTROL.matcher(text).replaceAll(" ");
  }

  private String line(Position position) {
    List<String> lines = files.computeIfAbsent(position.file(), DiagnosticText::lines);
    String line = position.line() <= lines.size() ? lines.get(position.line() - 1) : "";
    return line.startsWith("\uFEFF") ? line.substring(1) : line;
  }

  /** A file that cannot be read has no lines to show; the message says what is wrong. */
  private static List<String> lines(String file) {
    try {
      return Files.isRegularFile(Path.of(file)) ? Files.readAllLines(Path.of(file)) : List.of();
    } catch (IOException | InvalidPathException e) {
      return List.of();
    }
  }

  private static String count(List<Diagnostic> diagnostics) {
    long errors =
        diagnostics.stream().filter(d -> d.severity() == Diagnostic.Severity.ERROR).count();
    long warnings = diagnostics.size() - errors;
    long files = diagnostics.stream().map(d -> d.position().file()).distinct().count();
    if (diagnostics.isEmpty()) {
      return "no problems";
    }
    String all = errors > 0 ? number(errors, "error") : "";
    all += errors > 0 && warnings > 0 ? " and " : "";
    all += warnings > 0 ? number(warnings, "warning") : "";
    return all + " in " + number(files, "file");
  }

  private static String number(long count, String what) {
    return count + " " + what + (count == 1 ? "" : "s");
  }
}
