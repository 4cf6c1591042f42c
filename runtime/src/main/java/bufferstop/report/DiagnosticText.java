package bufferstop.report;

import bufferstop.model.Diagnostic;
import bufferstop.model.Position;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Renders problems for people: the place, the line, a mark under the span, and what to do. */
public final class DiagnosticText {
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
    out.append(d.message()).append('\n');
    String line = line(d.position());
    if (!line.isBlank()) {
      out.append(String.format(Locale.ROOT, "%5d | %s%n", d.position().line(), line));
      out.append("      | ").append(" ".repeat(d.position().column() - 1));
      out.append("^".repeat(marks(d.position(), line))).append('\n');
    }
    if (!d.expected().isEmpty()) {
      out.append("  expected: ").append(d.expected()).append('\n');
    }
    for (Diagnostic.Note note : d.notes()) {
      out.append("  note: ").append(note.position()).append(": ").append(note.text()).append('\n');
    }
    if (!d.help().isEmpty()) {
      out.append("  help: ").append(d.help()).append('\n');
    }
  }

  private static int marks(Position position, String line) {
    int room = line.length() - position.column() + 1;
    return Math.max(1, Math.min(position.length(), room));
  }

  private String line(Position position) {
    List<String> lines = files.computeIfAbsent(position.file(), DiagnosticText::lines);
    return position.line() <= lines.size() ? lines.get(position.line() - 1) : "";
  }

  /** A file that cannot be read has no lines to show; the message says what is wrong. */
  private static List<String> lines(String file) {
    try {
      return Files.isRegularFile(Path.of(file)) ? Files.readAllLines(Path.of(file)) : List.of();
    } catch (IOException e) {
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
