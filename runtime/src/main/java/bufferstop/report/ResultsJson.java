package bufferstop.report;

import bufferstop.model.Project;
import bufferstop.scenario.AlarmSummary;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** Writes {@code results.json}. */
final class ResultsJson {
  private static final long NANOS_PER_MILLI = 1_000_000;
  private static final long MICROS_PER_MILLI = 1_000;

  private final JsonGenerator json;

  private ResultsJson(JsonGenerator json) {
    this.json = json;
  }

  static void write(Path file, Project project, String version, List<ScenarioResult> results)
      throws IOException {
    try (JsonGenerator json = new JsonFactory().createGenerator(file.toFile(), JsonEncoding.UTF8)) {
      json.setPrettyPrinter(new DefaultPrettyPrinter());
      new ResultsJson(json).root(project, version, results);
    }
  }

  private void root(Project project, String version, List<ScenarioResult> results)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("project", project.name());
    json.writeStringField("project_sha256", project.sha256());
    json.writeStringField("version", version);
    json.writeFieldName("seed");
    writeSeed(results);
    json.writeArrayFieldStart("scenarios");
    for (ScenarioResult result : results) {
      scenario(result);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  /** The seed all scenarios ran with; null when they differ (each scenario then tells its own). */
  private void writeSeed(List<ScenarioResult> results) throws IOException {
    long[] seeds = results.stream().mapToLong(r -> r.scenario().seed()).distinct().toArray();
    if (seeds.length == 1) {
      json.writeNumber(seeds[0]);
    } else {
      json.writeNull();
    }
  }

  private void scenario(ScenarioResult result) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", result.scenario().name());
    json.writeStringField("file", result.scenario().file());
    json.writeStringField("requirement", result.scenario().requirement());
    json.writeNumberField("seed", result.scenario().seed());
    json.writeStringField("verdict", result.verdict().word());
    json.writeNumberField("scans", result.scans());
    json.writeNumberField("wall_ms", result.wallNanos() / NANOS_PER_MILLI);
    json.writeStringField("trace_sha256", result.traceSha256());
    json.writeArrayFieldStart("notes");
    for (String note : result.notes()) {
      json.writeString(note);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("bypasses");
    for (BypassCount bypass : result.bypasses()) {
      json.writeStartObject();
      json.writeStringField("interlock", bypass.interlock());
      json.writeStringField("cause", bypass.cause());
      json.writeNumberField("times", bypass.times());
      json.writeNumberField("would_act", bypass.wouldAct());
      json.writeEndObject();
    }
    json.writeEndArray();
    alarms(result.alarms());
    json.writeArrayFieldStart("expectations");
    for (ExpectationResult expectation : result.expectations()) {
      expectation(expectation);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void alarms(AlarmSummary alarms) throws IOException {
    json.writeObjectFieldStart("alarms");
    json.writeNumberField("floods", alarms.floods());
    json.writeNumberField("flood_ms", alarms.floodMicros() / MICROS_PER_MILLI);
    json.writeArrayFieldStart("counts");
    for (AlarmSummary.Count count : alarms.counts()) {
      json.writeStartObject();
      json.writeStringField("alarm", count.name());
      json.writeNumberField("activations", count.activations());
      json.writeBooleanField("standing", count.standing());
      json.writeBooleanField("chattering", count.chattering());
      json.writeBooleanField("stale", count.stale());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("events");
    for (AlarmSummary.Event event : alarms.events()) {
      json.writeStartObject();
      json.writeNumberField("at_ms", (double) event.atMicros() / MICROS_PER_MILLI);
      json.writeNumberField("scan", event.scan());
      json.writeStringField("alarm", event.alarm());
      json.writeStringField("event", event.what());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeNumberField("events_left_out", alarms.eventsLeftOut());
    json.writeEndObject();
  }

  private void expectation(ExpectationResult result) throws IOException {
    json.writeStartObject();
    json.writeStringField("text", result.text());
    json.writeStringField("verdict", result.verdict().word());
    json.writeFieldName("margin");
    if (result.margin() == null || !Double.isFinite(result.margin())) { // JSON has no infinity
      json.writeNull();
    } else {
      json.writeNumber(result.margin());
    }
    json.writeStringField("unit", result.unit());
    json.writeFieldName("at_ms");
    if (result.atMicros() < 0) {
      json.writeNull();
    } else {
      json.writeNumber((double) result.atMicros() / MICROS_PER_MILLI);
    }
    json.writeStringField("reason", result.reason());
    json.writeArrayFieldStart("other_margins");
    for (ExpectationResult.Margin margin : result.others()) {
      json.writeStartObject();
      json.writeNumberField("margin", margin.value());
      json.writeStringField("unit", margin.unit());
      json.writeNumberField("at_ms", (double) margin.atMicros() / MICROS_PER_MILLI);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }
}
