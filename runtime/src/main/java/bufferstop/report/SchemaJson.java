package bufferstop.report;

import bufferstop.model.Form;
import bufferstop.model.Form.Choice;
import bufferstop.model.Form.Key;
import bufferstop.model.Shape;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.Writer;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Writes a form as a JSON Schema, draft 2020-12, complete in itself. */
public final class SchemaJson {
  private static final String DRAFT = "https://json-schema.org/draft/2020-12/schema";

  private final JsonGenerator json;
  private final SchemaValue value;
  private final Map<String, Form> known = new TreeMap<>();
  private final Deque<Wanted> wanted = new ArrayDeque<>();

  /**
   * A form that is referred to.
   *
   * @param filled whether a scenario fills in parts of it
   */
  private record Wanted(Form form, boolean filled) {}

  private SchemaJson(JsonGenerator json) {
    this.json = json;
    value = new SchemaValue(json, this::refer);
  }

  /**
   * Writes a schema.
   *
   * @param title of what it is for
   * @param out is flushed, and stays open
   */
  public static void write(String title, Shape root, Writer out) throws IOException {
    JsonGenerator json = new JsonFactory().createGenerator(out);
    json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
    DefaultPrettyPrinter pretty = new DefaultPrettyPrinter();
    pretty.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    json.setPrettyPrinter(pretty);
    new SchemaJson(json).document(title, root);
    json.close();
    out.write("\n");
    out.flush();
  }

  private void document(String title, Shape root) throws IOException {
    json.writeStartObject();
    json.writeStringField("$schema", DRAFT);
    json.writeStringField("title", "Bufferstop: " + title);
    value.write(root, false);
    json.writeObjectFieldStart("$defs");
    while (!wanted.isEmpty()) {
      Wanted next = wanted.remove();
      json.writeFieldName(next.form.name());
      form(next.form, next.filled);
    }
    json.writeFieldName(SchemaValue.FILLED_IN);
    value.filledIn();
    json.writeEndObject();
    json.writeEndObject();
  }

  /** Writes a reference into the object at hand. */
  private void refer(Form form, boolean filled) throws IOException {
    json.writeStringField("$ref", "#/$defs/" + form.name());
    if (known.putIfAbsent(form.name(), form) == null) {
      wanted.add(new Wanted(form, filled));
    }
  }

  private void form(Form form, boolean filled) throws IOException {
    json.writeStartObject();
    json.writeStringField("description", form.what());
    json.writeStringField("type", "object");
    json.writeObjectFieldStart("properties");
    for (Key key : form.keys()) {
      json.writeObjectFieldStart(key.name());
      json.writeStringField("description", key.text());
      String example = key.example();
      if (!example.isEmpty() && !example.startsWith("[") && !example.startsWith("{")) {
        strings("examples", List.of(example));
      }
      value.write(key.shape(), filled);
      json.writeEndObject();
    }
    json.writeEndObject();
    if (form.others() == null) {
      json.writeBooleanField("additionalProperties", false);
    } else {
      json.writeObjectFieldStart("additionalProperties");
      value.write(form.others(), filled);
      json.writeEndObject();
    }
    List<String> always =
        form.keys().stream()
            .filter(k -> k.required() && k.with().isEmpty())
            .map(Key::name)
            .toList();
    if (!always.isEmpty()) {
      strings("required", always);
    }
    conditions(form);
    json.writeEndObject();
  }

  private void strings(String field, List<String> values) throws IOException {
    json.writeArrayFieldStart(field);
    for (String value : values) {
      json.writeString(value);
    }
    json.writeEndArray();
  }

  /** Which keys need which others. */
  private void conditions(Form form) throws IOException {
    List<Key> dependent = form.keys().stream().filter(k -> !k.with().isEmpty()).toList();
    if (!dependent.isEmpty()) {
      json.writeObjectFieldStart("dependentSchemas");
      for (Key key : dependent) {
        json.writeObjectFieldStart(key.name());
        each("anyOf", key.with());
        json.writeEndObject();
      }
      json.writeEndObject();
    }
    List<Key> needed = dependent.stream().filter(Key::required).toList();
    if (needed.isEmpty() && form.choices().isEmpty()) {
      return;
    }
    json.writeArrayFieldStart("allOf");
    for (Key key : needed) {
      given(key.with());
      strings("required", List.of(key.name()));
      json.writeEndObject();
      json.writeEndObject();
    }
    for (Choice choice : form.choices()) {
      choice(choice);
    }
    json.writeEndArray();
  }

  /** Begins an object with a condition, and in it what follows from that. */
  private void given(List<String> keys) throws IOException {
    json.writeStartObject();
    json.writeObjectFieldStart("if");
    each("anyOf", keys);
    json.writeEndObject();
    json.writeObjectFieldStart("then");
  }

  private void choice(Choice choice) throws IOException {
    String how = choice.several() ? "anyOf" : "oneOf";
    if (choice.when().isEmpty()) {
      json.writeStartObject();
      each(how, choice.keys());
      json.writeEndObject();
    } else {
      given(choice.when());
      each(how, choice.keys());
      json.writeEndObject();
      json.writeEndObject();
    }
  }

  /** One of some keys is given; {@code key=word} with that value. */
  private void each(String how, List<String> keys) throws IOException {
    json.writeArrayFieldStart(how);
    for (String key : keys) {
      int equals = key.indexOf('=');
      json.writeStartObject();
      strings("required", List.of(equals < 0 ? key : key.substring(0, equals)));
      if (equals >= 0) {
        json.writeObjectFieldStart("properties");
        json.writeObjectFieldStart(key.substring(0, equals));
        json.writeStringField("pattern", SchemaValue.inAnyCase(List.of(key.substring(equals + 1))));
        json.writeEndObject();
        json.writeEndObject();
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}
