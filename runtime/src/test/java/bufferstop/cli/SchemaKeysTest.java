package bufferstop.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.load.Grammar;
import bufferstop.load.ProjectLoader;
import bufferstop.load.ScenarioLoader;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Form;
import bufferstop.model.Form.Key;
import bufferstop.model.Shape;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Schema and loaders agree on every key of every mapping: a file that gives it is valid and read
 * without a word about its keys; under another name, with a value of the wrong kind, or without a
 * key it needs, both refuse it.
 */
class SchemaKeysTest {
  private static final Map<String, Shape> KINDS = Grammar.files();
  private static final List<String> ABOUT_KEYS =
      List.of("unknown key", " needs `", "has none of", "has several of", " is none of");

  @TempDir Path folder;

  private final List<String> wrong = new ArrayList<>();
  private final Set<String> seen = new TreeSet<>(); // forms whose keys were tried
  private int tried;

  /** Puts a mapping where its form stands in a file. */
  private record Place(String kind, UnaryOperator<JsonNode> within) {}

  @Test
  void everyKeyIsKnownToBoth() {
    for (String kind : List.of("project", "library", "scenario", "setup")) {
      Form form = ((Shape.Of) KINDS.get(kind)).form();
      visit(form, new Place(kind, content -> content), List.of());
    }
    assertEquals("", String.join("\n", wrong));
    assertTrue(tried > 250, "only " + tried + " keys");
    assertTrue(seen.containsAll(List.of("fault", "limit", "map_entry", "sunspec", "permission")));
  }

  private void visit(Form form, Place place, List<String> path) {
    if (!seen.add(form.name())) {
      return;
    }
    for (Key key : form.keys()) {
      ObjectNode sample = FormSamples.with(form, key);
      String at = place.kind + " " + path + " " + key.name();
      tried++;
      agree(place, sample, at);
      refused(place, renamed(sample, key), at + " renamed");
      if (!(key.shape() instanceof Shape.Anything) && !isOpen(key.shape())) {
        ObjectNode mistaken = sample.deepCopy();
        mistaken.set(key.name(), Schemas.read("[[[1]]]"));
        refused(place, mistaken, at + " with a list of lists");
      }
      if (key.required() && key.with().isEmpty()) {
        ObjectNode without = sample.deepCopy();
        without.remove(key.name());
        refused(place, without, at + " left out");
      }
      for (Form inner : FormSamples.inside(key.shape())) {
        Place below =
            new Place(
                place.kind,
                content -> {
                  ObjectNode outer = sample.deepCopy();
                  outer.set(key.name(), FormSamples.embedded(key.shape(), inner, content));
                  return place.within.apply(outer);
                });
        List<String> longer = new ArrayList<>(path);
        longer.add(key.name());
        visit(inner, below, longer);
      }
    }
  }

  /** Whether a mapping under this key may hold anything. */
  private static boolean isOpen(Shape shape) {
    return shape instanceof Shape.Section section && section.held() instanceof Shape.Anything
        || shape instanceof Shape.ListOf
        || shape instanceof Shape.Filled filled && isOpen(filled.within());
  }

  private static ObjectNode renamed(ObjectNode sample, Key key) {
    ObjectNode renamed = JsonNodeFactory.instance.objectNode();
    sample
        .properties()
        .forEach(
            e -> renamed.set(e.getKey().equals(key.name()) ? "qqq" : e.getKey(), e.getValue()));
    return renamed;
  }

  private void agree(Place place, ObjectNode sample, String at) {
    JsonNode content = place.within.apply(sample);
    var complaints = Schemas.complaints(KINDS.get(place.kind), content);
    if (!complaints.isEmpty()) {
      wrong.add(at + ": the schema refuses " + content + ": " + complaints);
    }
    List<String> about =
        said(place.kind, content).stream()
            .filter(m -> ABOUT_KEYS.stream().anyMatch(m::contains))
            .toList();
    if (!about.isEmpty()) {
      wrong.add(at + ": the loader refuses " + content + ": " + about);
    }
  }

  private void refused(Place place, ObjectNode sample, String at) {
    if (isBlockInput(place, sample)) {
      return;
    }
    JsonNode content = place.within.apply(sample);
    if (Schemas.complaints(KINDS.get(place.kind), content).isEmpty()) {
      wrong.add(at + ": the schema takes " + content);
    }
    if (said(place.kind, content).isEmpty()) {
      wrong.add(at + ": the loader takes " + content);
    }
  }

  /** Any name may be that of an input of a block; which there are, the block says. */
  private static boolean isBlockInput(Place place, ObjectNode sample) {
    return sample.has("qqq") && sample.has("block") && place.kind.equals("project");
  }

  /** What a loader says of a file of that kind. */
  private List<String> said(String kind, JsonNode content) {
    Diagnostics problems = new Diagnostics();
    try {
      Path file = folder.resolve("file.yaml");
      Files.writeString(file, content.toString());
      switch (kind) {
        case "project" -> ProjectLoader.read(file, problems);
        case "library" -> {
          Path project = folder.resolve("project.yaml");
          Files.writeString(project, "project: p\nlibraries: [file.yaml]\n");
          ProjectLoader.read(project, problems);
        }
        case "scenario" -> ScenarioLoader.read(file, null, problems);
        default -> {
          Path scenario = folder.resolve("scenario.yaml");
          String text = "scenario: s\nfor: T#1s\nsetup: file.yaml\nexpect:\n  - never: FALSE\n";
          Files.writeString(scenario, text);
          ScenarioLoader.read(scenario, null, problems);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return problems.sorted().stream().map(Diagnostic::message).toList();
  }
}
