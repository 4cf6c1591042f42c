package bufferstop.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.load.Grammar;
import bufferstop.load.ProjectLoader;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Form;
import bufferstop.model.Shape;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.Rig;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every file of every project in the tree is valid by the schema of its kind. */
class SchemaFilesTest {
  private static final Path CONFIGS = Path.of("..", "configs");
  private static final Map<String, Shape> KINDS = Grammar.files();
  private static final PlantCatalog PLANTS = PlantCatalog.find(List.of(), new Diagnostics());

  @TempDir Path folder;

  /** A file with the shape of what it holds. */
  private record Held(Path file, Shape shape, JsonNode content) {}

  private final Map<Path, Held> files = new TreeMap<>();

  private void take(Path file, Shape shape) {
    Path known = file.normalize();
    if (files.containsKey(known)) {
      return;
    }
    try {
      JsonNode content = Schemas.read(Files.readString(known));
      files.put(known, new Held(known, shape, content));
      follow(known, shape, content);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Goes to the files that a file names. */
  private void follow(Path file, Shape shape, JsonNode content) {
    if (shape instanceof Shape.Section section) {
      if (content.isTextual()) {
        take(file.resolveSibling(content.asText()), section.held());
      } else {
        follow(file, section.held(), content);
      }
    } else if (shape instanceof Shape.Of of && content.isObject()) {
      of.form().keys().stream()
          .filter(key -> content.has(key.name()))
          .forEach(key -> follow(file, key.shape(), content.get(key.name())));
      named(file, of.form(), content);
    } else if (shape instanceof Shape.Either either) {
      either.shapes().stream()
          .filter(each -> each instanceof Shape.ListOf == content.isArray())
          .forEach(each -> follow(file, each, content));
    } else if (shape instanceof Shape.ListOf list && content.isArray()) {
      content.forEach(value -> follow(file, list.items(), value));
    } else if (shape instanceof Shape.Named named && content.isObject()) {
      content.forEach(value -> follow(file, named.values(), value));
    }
  }

  private void named(Path file, Form form, JsonNode content) {
    if (form.name().equals("plant")) {
      Shape settings = new Shape.Of(PLANTS.settings(content.get("model").asText()));
      follow(file, new Shape.Section(settings), content.get("with"));
    }
    List<String> keys = List.of("libraries", "setup");
    List<Shape> shapes = List.of(KINDS.get("library"), KINDS.get("setup"));
    for (int i = 0; i < keys.size(); i++) {
      JsonNode names = content.path(keys.get(i));
      for (JsonNode name : names.isTextual() ? List.of(names) : names) {
        take(file.resolveSibling(name.asText()), shapes.get(i));
      }
    }
  }

  private void takeAll() throws IOException {
    try (Stream<Path> found = Files.walk(CONFIGS)) {
      for (Path file : (Iterable<Path>) found.sorted()::iterator) {
        if (file.endsWith("project.yaml")) {
          take(file, KINDS.get("project"));
        } else if (file.getParent().endsWith("scenarios") && file.toString().endsWith(".yaml")) {
          take(file, KINDS.get("scenario"));
        }
      }
    }
  }

  @Test
  void everyFileIsValid() throws IOException {
    takeAll();
    assertTrue(files.size() > 250, "only " + files.size() + " files");
    List<String> wrong = new ArrayList<>();
    for (Held held : files.values()) {
      Schemas.complaints(held.shape, held.content)
          .forEach(
              error -> wrong.add(held.file + ": " + error.getInstanceLocation() + " " + error));
    }
    assertEquals("", String.join("\n", wrong));
  }

  @Test
  void noYamlFileOfAProjectIsLeftOut() throws IOException {
    takeAll();
    try (Stream<Path> found = Files.walk(CONFIGS)) {
      List<String> left =
          found
              .filter(f -> f.toString().endsWith(".yaml"))
              .map(Path::normalize)
              .filter(f -> !files.containsKey(f))
              .map(Path::toString)
              .toList();
      assertEquals(List.of(), left);
    }
  }

  /** One key too many at the head of every file that is a mapping with a form. */
  @Test
  void aKeyThatIsNotThereIsRefusedInEveryFile() throws IOException {
    takeAll();
    int refused = 0;
    for (Held held : files.values()) {
      if (held.shape instanceof Shape.Of of && held.content instanceof ObjectNode object) {
        if (of.form().others() == null) {
          object.put("no_such_key", 1);
          assertFalse(Schemas.complaints(held.shape, object).isEmpty(), held.file.toString());
          refused++;
        }
      }
    }
    assertTrue(refused > 200, "only " + refused);
  }

  /** Whoever edits by a schema must be able to trust its form. */
  @Test
  void everySchemaIsOneOfTheDraft() {
    Map<String, Shape> all = new TreeMap<>(KINDS);
    PLANTS.names().forEach(m -> all.put("plant." + m, new Shape.Of(PLANTS.settings(m))));
    all.forEach(
        (kind, shape) ->
            assertEquals(
                List.of(), Schemas.ofTheDraft(Schemas.text(shape)), () -> "the schema of " + kind));
  }

  /** The settings of every model: what the schema knows the host knows, and nothing else. */
  @Test
  void theHostKnowsTheSettingsThatTheSchemaKnows() throws IOException {
    for (String model : PLANTS.names()) {
      Form form = PLANTS.settings(model);
      assertFalse(form.keys().isEmpty(), model);
      List<String> unknown = unknownKeys(model, "no_such_key");
      assertEquals(List.of("no_such_key"), unknown, model);
      for (Form.Key key : form.keys()) {
        assertEquals(List.of(), unknownKeys(model, key.name()), model);
        JsonNode wrong = Schemas.read("{" + key.name() + ": [[[1]]]}");
        List<String> places =
            Schemas.complaints(new Shape.Of(form), wrong).stream()
                .map(e -> e.getInstanceLocation().toString())
                .filter(place -> place.startsWith("/" + key.name()))
                .toList();
        assertFalse(places.isEmpty(), model + " " + key.name());
      }
    }
  }

  /** Keys that the host does not know when a plant is given a wrong value under that key. */
  private List<String> unknownKeys(String model, String key) throws IOException {
    Path file = folder.resolve("project.yaml");
    Files.writeString(
        file, "project: p\nplants:\n  p: {model: " + model + ", with: {" + key + ": [[[1]]]}}\n");
    Diagnostics problems = new Diagnostics();
    Rig.build(ProjectLoader.read(file, problems), PLANTS, 1, problems);
    return problems.sorted().stream()
        .map(Diagnostic::message)
        .filter(m -> m.startsWith("unknown key `"))
        .map(m -> m.split("`")[1])
        .toList();
  }
}
