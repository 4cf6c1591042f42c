package bufferstop.plant;

import bufferstop.model.Form;
import bufferstop.model.Form.Key;
import bufferstop.model.Shape;
import bufferstop.spi.Parameter;
import java.util.List;

/** The schema of a plant model as the form of its settings. */
final class SettingsForm {
  private SettingsForm() {}

  /**
   * The form of some parameters.
   *
   * @param name of the form; those inside it are named below it
   */
  static Form of(String name, List<Parameter> schema) {
    Key[] keys = schema.stream().map(p -> key(name, p)).toArray(Key[]::new);
    return Form.of(name, "the settings " + name, keys);
  }

  private static Key key(String form, Parameter parameter) {
    String unit = parameter.unit().isEmpty() ? "" : ", " + parameter.unit();
    boolean scalar = parameter.fallback() != null && parameter.fields().isEmpty();
    boolean shown = scalar && !parameter.fallback().isEmpty();
    String fallback = shown ? "; default " + parameter.fallback() : "";
    Key key = Key.key(parameter.name(), shape(form, parameter), parameter.text() + unit + fallback);
    return parameter.fallback() == null ? key.needed() : key;
  }

  private static Shape shape(String form, Parameter parameter) {
    return switch (parameter.kind()) {
      case BOOL -> Shape.TRUTH;
      case INTEGER -> new Shape.Whole((long) parameter.min(), (long) parameter.max());
      case NUMBER -> new Shape.Number(parameter.min(), parameter.max());
      case TEXT -> Shape.TEXT;
      case CHOICE -> new Shape.Words(parameter.choices(), false);
      case ITEM -> new Shape.Of(inner(form, parameter));
      case LIST -> new Shape.ListOf(new Shape.Of(inner(form, parameter)));
      case NAMED -> Shape.named(new Shape.Of(inner(form, parameter)));
    };
  }

  private static Form inner(String form, Parameter parameter) {
    return of(form + "." + parameter.name(), parameter.fields());
  }
}
