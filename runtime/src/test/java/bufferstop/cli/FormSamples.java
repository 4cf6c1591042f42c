package bufferstop.cli;

import bufferstop.model.Form;
import bufferstop.model.Form.Choice;
import bufferstop.model.Form.Key;
import bufferstop.model.Shape;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;

/** Mappings made from forms: as few keys as there must be. */
final class FormSamples {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private FormSamples() {}

  /** One that gives a key, and whatever that needs. */
  static ObjectNode with(Form form, Key wanted) {
    ObjectNode sample = JSON.objectNode();
    add(form, wanted, sample);
    form.keys().stream()
        .filter(k -> k.required() && k.with().isEmpty())
        .forEach(k -> add(form, k, sample));
    boolean grows = true;
    while (grows) {
      int before = sample.size();
      for (Choice choice : form.choices()) {
        boolean asked = choice.when().isEmpty() || choice.when().stream().anyMatch(sample::has);
        if (asked && choice.keys().stream().noneMatch(sample::has)) {
          add(form, form.key(choice.keys().get(0)), sample);
        }
      }
      for (Key key : form.keys()) {
        if (key.required() && key.with().stream().anyMatch(w -> isGiven(w, sample))) {
          add(form, key, sample);
        }
      }
      grows = sample.size() > before;
    }
    return sample;
  }

  private static boolean isGiven(String condition, ObjectNode sample) {
    int equals = condition.indexOf('=');
    return equals < 0
        ? sample.has(condition)
        : sample
            .path(condition.substring(0, equals))
            .asText()
            .equals(condition.substring(equals + 1));
  }

  private static void add(Form form, Key key, ObjectNode sample) {
    if (sample.has(key.name())) {
      return;
    }
    sample.set(key.name(), value(key));
    if (!key.with().isEmpty() && key.with().stream().noneMatch(w -> isGiven(w, sample))) {
      String first = key.with().get(0);
      int equals = first.indexOf('=');
      if (equals < 0) {
        add(form, form.key(first), sample);
      } else {
        sample.put(first.substring(0, equals), first.substring(equals + 1));
      }
    }
  }

  private static JsonNode value(Key key) {
    return key.example().isEmpty() ? value(key.shape()) : Schemas.read(key.example());
  }

  private static JsonNode value(Shape shape) {
    if (shape instanceof Shape.Filled filled) {
      return value(filled.within());
    } else if (shape instanceof Shape.Section section) {
      return value(section.held());
    } else if (shape instanceof Shape.Either either) {
      return value(either.shapes().get(0));
    } else if (shape instanceof Shape.Of of) {
      return with(of.form(), of.form().keys().get(0));
    } else if (shape instanceof Shape.ListOf list) {
      return JSON.arrayNode().add(value(list.items()));
    } else if (shape instanceof Shape.Named named) {
      return JSON.objectNode().set(named.identifiers() ? "one" : "128", value(named.values()));
    }
    return Schemas.read(single(shape));
  }

  private static String single(Shape shape) {
    if (shape instanceof Shape.Words words) {
      return words.words().get(0);
    } else if (shape instanceof Shape.Whole whole) {
      return Long.toString(Math.max(1, whole.least()));
    } else if (shape instanceof Shape.Number number) {
      return Double.toString(Math.max(number.least(), Math.min(1, number.greatest())));
    } else if (shape instanceof Shape.Duration) {
      return "T#3s";
    } else if (shape instanceof Shape.TypeName) {
      return "BOOL";
    } else if (shape instanceof Shape.Range) {
      return "[1, 3]";
    } else if (shape instanceof Shape.Anything) {
      return "{a: 1}";
    } else if (shape instanceof Shape.Text || shape instanceof Shape.Naming) {
      return "some";
    } else if (shape instanceof Shape.NameList) {
      return "[some]";
    }
    return "TRUE";
  }

  /** The forms of mappings that may stand somewhere in a value. */
  static List<Form> inside(Shape shape) {
    List<Form> forms = new ArrayList<>();
    if (shape instanceof Shape.Of of) {
      forms.add(of.form());
    } else if (shape instanceof Shape.Filled filled) {
      forms.addAll(inside(filled.within()));
    } else if (shape instanceof Shape.Section section) {
      forms.addAll(inside(section.held()));
    } else if (shape instanceof Shape.ListOf list) {
      forms.addAll(inside(list.items()));
    } else if (shape instanceof Shape.Named named) {
      forms.addAll(inside(named.values()));
    } else if (shape instanceof Shape.Either either) {
      either.shapes().forEach(s -> forms.addAll(inside(s)));
    }
    return forms;
  }

  /** A value of that shape with a mapping of a form in it. */
  static JsonNode embedded(Shape shape, Form form, JsonNode content) {
    if (shape instanceof Shape.Filled filled) {
      return embedded(filled.within(), form, content);
    } else if (shape instanceof Shape.Section section) {
      return embedded(section.held(), form, content);
    } else if (shape instanceof Shape.ListOf list) {
      return JSON.arrayNode().add(embedded(list.items(), form, content));
    } else if (shape instanceof Shape.Named named) {
      return JSON.objectNode()
          .set(named.identifiers() ? "one" : "128", embedded(named.values(), form, content));
    } else if (shape instanceof Shape.Either either) {
      Shape holding =
          either.shapes().stream().filter(s -> inside(s).contains(form)).findFirst().orElseThrow();
      return embedded(holding, form, content);
    }
    return content;
  }
}
