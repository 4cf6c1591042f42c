package bufferstop.cli;

import bufferstop.model.Shape;
import bufferstop.report.SchemaJson;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import org.yaml.snakeyaml.DumperOptions.ScalarStyle;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/** Files as an editor sees them, judged by a validator of others. */
final class Schemas {
  private static final SchemaRegistry REGISTRY =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12);
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;
  private static final Map<Shape, Schema> MADE = new IdentityHashMap<>();

  private Schemas() {}

  /** What a validator says of a file's content; nothing when it is valid. */
  static List<Error> complaints(Shape shape, JsonNode content) {
    return MADE.computeIfAbsent(shape, s -> REGISTRY.getSchema(text(s))).validate(content);
  }

  /** What the draft's own schema says of a schema. */
  static List<Error> ofTheDraft(String schema) {
    return REGISTRY
        .getSchema(SchemaLocation.of(SpecificationVersion.DRAFT_2020_12.getDialectId()))
        .validate(schema, InputFormat.JSON);
  }

  static String text(Shape shape) {
    try {
      StringWriter out = new StringWriter();
      SchemaJson.write("test", shape, out);
      return out.toString();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A YAML file by the core schema of YAML 1.2.2, 10.3.2, as editors read it. */
  static JsonNode read(String yaml) {
    return json(new Yaml().compose(new StringReader(yaml)));
  }

  private static JsonNode json(Node node) {
    if (node instanceof MappingNode mapping) {
      ObjectNode object = JSON.objectNode();
      for (NodeTuple tuple : mapping.getValue()) {
        object.set(((ScalarNode) tuple.getKeyNode()).getValue(), json(tuple.getValueNode()));
      }
      return object;
    }
    if (node instanceof SequenceNode sequence) {
      ArrayNode array = JSON.arrayNode();
      sequence.getValue().forEach(item -> array.add(json(item)));
      return array;
    }
    ScalarNode scalar = (ScalarNode) node;
    String value = scalar.getValue();
    return scalar.getScalarStyle() == ScalarStyle.PLAIN ? plain(value) : JSON.textNode(value);
  }

  private static JsonNode plain(String value) {
    if (value.matches("|~|null|Null|NULL")) {
      return JSON.nullNode();
    }
    if (value.matches("true|True|TRUE|false|False|FALSE")) {
      return JSON.booleanNode(value.equalsIgnoreCase("true"));
    }
    if (value.matches("[-+]?[0-9]{1,18}")) {
      return JSON.numberNode(Long.parseLong(value));
    }
    if (value.matches("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?")) {
      return JSON.numberNode(Double.parseDouble(value));
    }
    return JSON.textNode(value);
  }
}
