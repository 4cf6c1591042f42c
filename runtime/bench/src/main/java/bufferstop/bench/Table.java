package bufferstop.bench;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.util.List;
import java.util.Locale;

/** Rows as a table for people and as JSON. */
final class Table {
  private Table() {}

  static String text(List<Row> rows) {
    StringBuilder out = new StringBuilder();
    out.append(line("figure", "value", "unit", "baseline", "value", "ratio"));
    for (Row row : rows) {
      String baseline = row.isCompared() ? number(row.baseline()) : "";
      String ratio = row.isCompared() ? String.format(Locale.ROOT, "%.2f", row.ratio()) : "";
      out.append(
          line(row.name(), number(row.value()), row.unit(), row.baselineName(), baseline, ratio));
    }
    return out.toString();
  }

  private static String line(
      String name, String value, String unit, String baselineName, String baseline, String ratio) {
    return String.format(
            Locale.ROOT,
            "%-52s %12s %-10s %-26s %12s %6s",
            name,
            value,
            unit,
            baselineName,
            baseline,
            ratio)
        .stripTrailing()
        .concat("\n");
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, Math.abs(value) >= 1000 ? "%,.0f" : "%.4g", value);
  }

  static String json(List<Row> rows) throws IOException {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text).useDefaultPrettyPrinter()) {
      json.writeStartArray();
      for (Row row : rows) {
        json.writeStartObject();
        json.writeStringField("name", row.name());
        json.writeNumberField("value", row.value());
        json.writeStringField("unit", row.unit());
        json.writeStringField("baseline_name", row.baselineName());
        json.writeNumberField("baseline", row.baseline());
        json.writeFieldName("ratio");
        if (row.isCompared()) {
          json.writeNumber(row.ratio());
        } else {
          json.writeNull();
        }
        json.writeEndObject();
      }
      json.writeEndArray();
    }
    return text + "\n";
  }
}
