package bufferstop.report;

import bufferstop.model.Diagnostic;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.util.List;
import java.util.Locale;

/** Problems for editors: one JSON object a line. */
public final class DiagnosticJson {
  private DiagnosticJson() {}

  /**
   * All of them, one a line, each ending in a line feed; nothing when there are none. Lines and
   * columns count from 1; {@code end} is the column behind the span.
   */
  public static String render(List<Diagnostic> diagnostics) throws IOException {
    StringBuilder out = new StringBuilder();
    for (Diagnostic diagnostic : diagnostics) {
      StringWriter line = new StringWriter();
      try (JsonGenerator json = new JsonFactory().createGenerator(line)) {
        write(diagnostic, json);
      }
      out.append(line).append('\n');
    }
    return out.toString();
  }

  private static void write(Diagnostic d, JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeStringField("severity", d.severity().name().toLowerCase(Locale.ROOT));
    json.writeStringField("code", d.code().word());
    json.writeStringField("file", d.position().file());
    json.writeNumberField("line", d.position().line());
    json.writeNumberField("column", d.position().column());
    json.writeNumberField("end", d.position().column() + d.position().length());
    json.writeStringField("message", d.message());
    json.writeStringField("expected", d.expected());
    json.writeArrayFieldStart("notes");
    for (Diagnostic.Note note : d.notes()) {
      json.writeStartObject();
      json.writeStringField("file", note.position().file());
      json.writeNumberField("line", note.position().line());
      json.writeNumberField("column", note.position().column());
      json.writeStringField("text", note.text());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeStringField("help", d.help());
    json.writeEndObject();
  }
}
