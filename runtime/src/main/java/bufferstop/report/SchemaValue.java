package bufferstop.report;

import bufferstop.model.Form;
import bufferstop.model.Shape;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;

/** Writes what may stand as a value, as keywords of the schema object at hand. */
final class SchemaValue {
  /** The name of what a scenario puts in place of a value. */
  static final String FILLED_IN = "filled_in";

  private static final String NAME = "^[A-Za-z](_?[A-Za-z0-9])*$";
  private static final String TIME = "^([tT]|[tT][iI][mM][eE])#[+-]?[0-9].*[dDhHmMsS]_?$";
  private static final String WHOLE = "^[+-]?([A-Za-z]+#)?[0-9][0-9A-Fa-f_#]*$";
  private static final String TRUTH =
      "^([bB][oO][oO][lL]#[01]|([bB][oO][oO][lL]#)?([tT][rR][uU][eE]|[fF][aA][lL][sS][eE]))$";

  private final JsonGenerator json;
  private final References references;

  /** Takes a reference to a form. */
  interface References {
    void refer(Form form, boolean filled) throws IOException;
  }

  SchemaValue(JsonGenerator json, References references) {
    this.json = json;
    this.references = references;
  }

  /** Words in any case, as a pattern. */
  static String inAnyCase(List<String> words) {
    StringBuilder pattern = new StringBuilder("^(");
    for (String word : words) {
      pattern.append(pattern.length() > 2 ? "|" : "");
      for (char c : word.toCharArray()) {
        boolean letter = Character.isLetter(c);
        pattern.append(
            letter
                ? "[" + Character.toLowerCase(c) + Character.toUpperCase(c) + "]"
                : String.valueOf(c));
      }
    }
    return pattern.append(")$").toString();
  }

  /**
   * Writes a value.
   *
   * @param filled whether a scenario may fill it in
   */
  void write(Shape shape, boolean filled) throws IOException {
    if (shape instanceof Shape.Filled open) {
      write(open.within(), true);
    } else if (filled && !(shape instanceof Shape.Anything)) {
      json.writeArrayFieldStart("anyOf");
      json.writeStartObject();
      own(shape, true);
      json.writeEndObject();
      json.writeStartObject();
      json.writeStringField("$ref", "#/$defs/" + FILLED_IN);
      json.writeEndObject();
      json.writeEndArray();
    } else {
      own(shape, filled);
    }
  }

  private void own(Shape shape, boolean filled) throws IOException {
    if (shape instanceof Shape.Of of) {
      references.refer(of.form(), filled);
    } else if (shape instanceof Shape.ListOf list) {
      json.writeStringField("type", "array");
      inner("items", list.items(), filled);
    } else if (shape instanceof Shape.Named named) {
      json.writeStringField("type", "object");
      if (named.identifiers()) {
        json.writeObjectFieldStart("propertyNames");
        json.writeStringField("pattern", NAME);
        json.writeEndObject();
      }
      inner("additionalProperties", named.values(), filled);
    } else if (shape instanceof Shape.Section section) {
      either(List.of(section.held(), Shape.NAME), filled);
    } else if (shape instanceof Shape.Either either) {
      either(either.shapes(), filled);
    } else if (shape instanceof Shape.NameList) {
      json.writeArrayFieldStart("anyOf");
      json.writeStartObject();
      types("string", "number");
      json.writeEndObject();
      json.writeStartObject();
      json.writeStringField("type", "array");
      json.writeObjectFieldStart("items");
      types("string", "number");
      json.writeEndObject();
      json.writeEndObject();
      json.writeEndArray();
    } else if (shape instanceof Shape.Range) {
      json.writeStringField("type", "array");
      json.writeNumberField("minItems", 2);
      json.writeNumberField("maxItems", 2);
      inner("items", Shape.LITERAL, filled);
    } else {
      single(shape);
    }
  }

  private void inner(String field, Shape shape, boolean filled) throws IOException {
    json.writeObjectFieldStart(field);
    write(shape, filled);
    json.writeEndObject();
  }

  private void either(List<Shape> shapes, boolean filled) throws IOException {
    json.writeArrayFieldStart("anyOf");
    for (Shape shape : shapes) {
      json.writeStartObject();
      own(shape, filled);
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void single(Shape shape) throws IOException {
    if (shape instanceof Shape.Words words) {
      json.writeArrayFieldStart("anyOf");
      json.writeStartObject();
      json.writeArrayFieldStart("enum");
      for (String word : words.words()) {
        json.writeString(word);
      }
      json.writeEndArray();
      json.writeEndObject();
      if (words.anyCase()) {
        orText(inAnyCase(words.words()));
      } else {
        json.writeEndArray();
      }
    } else if (shape instanceof Shape.Truth truth) {
      json.writeArrayFieldStart("anyOf");
      json.writeStartObject();
      types("boolean");
      json.writeEndObject();
      orText(truth.constants() ? "." : TRUTH);
    } else if (shape instanceof Shape.Whole whole) {
      json.writeArrayFieldStart("anyOf");
      json.writeStartObject();
      types("integer");
      if (whole.least() != Long.MIN_VALUE) {
        json.writeNumberField("minimum", whole.least());
        json.writeNumberField("maximum", whole.greatest());
      }
      json.writeEndObject();
      orText(WHOLE);
    } else if (shape instanceof Shape.Number number) {
      types("number");
      if (Double.isFinite(number.least())) {
        json.writeNumberField("minimum", number.least());
      }
      if (Double.isFinite(number.greatest())) {
        json.writeNumberField("maximum", number.greatest());
      }
    } else if (shape instanceof Shape.Duration duration) {
      types("string");
      json.writeStringField("pattern", duration.constants() ? "." : TIME);
    } else if (shape instanceof Shape.Naming || shape instanceof Shape.TypeName) {
      types("string");
      json.writeNumberField("minLength", 1);
    } else if (!(shape instanceof Shape.Anything)) { // a text, a literal, an expression
      types("string", "number", "boolean");
      json.writeNumberField("minLength", 1);
    }
  }

  /** Ends an anyOf with a text of that form. */
  private void orText(String pattern) throws IOException {
    json.writeStartObject();
    types("string");
    json.writeStringField("pattern", pattern);
    json.writeEndObject();
    json.writeEndArray();
  }

  private void types(String... types) throws IOException {
    if (types.length == 1) {
      json.writeStringField("type", types[0]);
      return;
    }
    json.writeArrayFieldStart("type");
    for (String type : types) {
      json.writeString(type);
    }
    json.writeEndArray();
  }

  /** Writes the schema of what stands for a value in a scenario: `$name`, or what is drawn. */
  void filledIn() throws IOException {
    json.writeStartObject();
    json.writeStringField("description", "a parameter, or a value that is drawn");
    json.writeArrayFieldStart("anyOf");
    json.writeStartObject();
    types("string");
    json.writeStringField("pattern", "\\$[A-Za-z]");
    json.writeEndObject();
    drawn("random", "[least, greatest]");
    drawn("one_of", "one of these");
    json.writeEndArray();
    json.writeEndObject();
  }

  private void drawn(String key, String text) throws IOException {
    json.writeStartObject();
    types("object");
    json.writeObjectFieldStart("properties");
    json.writeObjectFieldStart(key);
    json.writeStringField("description", text);
    types("array");
    json.writeEndObject();
    json.writeEndObject();
    json.writeArrayFieldStart("required");
    json.writeString(key);
    json.writeEndArray();
    json.writeBooleanField("additionalProperties", false);
    json.writeEndObject();
  }
}
