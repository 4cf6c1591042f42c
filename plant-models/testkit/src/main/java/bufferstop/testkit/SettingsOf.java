package bufferstop.testkit;

import bufferstop.spi.Parameter;
import bufferstop.spi.Parameter.Kind;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Settings from plain maps and lists, checked against a schema as the host checks a file. Scalars
 * may be Numbers, Booleans or Strings as they would be written.
 */
public final class SettingsOf implements Settings {
  private final List<Parameter> schema;
  private final Map<String, ?> given;
  private final Map<String, Object> values = new LinkedHashMap<>();

  private SettingsOf(List<Parameter> schema, Map<String, ?> given, String path) {
    this.schema = schema;
    this.given = given;
    for (String key : given.keySet()) {
      if (schema.stream().noneMatch(p -> p.name().equals(key))) {
        throw wrong(path + key, "no such parameter");
      }
    }
    for (Parameter p : schema) {
      take(p, path + p.name());
    }
  }

  /**
   * Settings out of nested maps.
   *
   * @param schema the model's parameters
   * @param given values by name: String, Number, Boolean, Map or List
   * @throws IllegalArgumentException for an unknown, missing, mistyped or out-of-range value; the
   *     message gives its path
   */
  public static Settings map(List<Parameter> schema, Map<String, ?> given) {
    return new SettingsOf(schema, given, "");
  }

  /** Settings out of a text that {@link SettingsText} reads; otherwise like {@link #map}. */
  public static Settings text(List<Parameter> schema, String text) {
    return map(schema, SettingsText.read(text));
  }

  private void take(Parameter p, String path) {
    Object value = given.get(p.name());
    if (value == null && p.fallback() == null) {
      throw wrong(path, "required but not given");
    }
    boolean nested = p.kind() == Kind.ITEM || p.kind() == Kind.LIST || p.kind() == Kind.NAMED;
    if (nested) {
      values.put(p.name(), nested(p, value, path));
    } else {
      values.put(p.name(), scalar(p, value == null ? p.fallback() : value.toString(), path));
    }
  }

  private static Object nested(Parameter p, Object value, String path) {
    if (p.kind() == Kind.LIST) {
      List<Settings> all = new ArrayList<>();
      List<?> items = value == null ? List.of() : cast(value, List.class, path);
      for (Object each : items) {
        all.add(new SettingsOf(p.fields(), mapping(each, path), path + "[" + all.size() + "]."));
      }
      return all;
    }
    if (p.kind() == Kind.ITEM) {
      return value == null ? "" : new SettingsOf(p.fields(), mapping(value, path), path + ".");
    }
    Map<String, Settings> all = new LinkedHashMap<>();
    mapping(value == null ? Map.of() : value, path)
        .forEach(
            (key, each) -> {
              String inner = path + "." + key;
              all.put(key, new SettingsOf(p.fields(), mapping(each, inner), inner + "."));
            });
    return all;
  }

  private static Object scalar(Parameter p, String text, String path) {
    return switch (p.kind()) {
      case BOOL -> oneOf(List.of("TRUE", "FALSE"), text.toUpperCase(Locale.ROOT), path);
      case CHOICE -> oneOf(p.choices(), text, path);
      case TEXT -> text;
      default -> number(p, text, path);
    };
  }

  private static Object number(Parameter p, String text, String path) {
    double value;
    try {
      value = Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw wrong(path, "not a number: " + text);
    }
    if (!(value >= p.min() && value <= p.max())) {
      throw wrong(path, text + " is not within " + p.min() + " to " + p.max() + " " + p.unit());
    }
    if (p.kind() == Kind.NUMBER) {
      return value;
    }
    if (value != Math.rint(value)) {
      throw wrong(path, text + " is not a whole number");
    }
    return (long) value;
  }

  private static String oneOf(List<String> choices, String text, String path) {
    if (!choices.contains(text)) {
      throw wrong(path, text + " is not one of " + choices);
    }
    return text;
  }

  private static Map<String, Object> mapping(Object value, String path) {
    Map<String, Object> map = new LinkedHashMap<>();
    Map<?, ?> from = cast(value, Map.class, path);
    from.forEach((key, each) -> map.put(key.toString(), each));
    return map;
  }

  private static <T> T cast(Object value, Class<T> kind, String path) {
    if (!kind.isInstance(value)) {
      throw wrong(path, "expected a " + kind.getSimpleName() + ", found " + value);
    }
    return kind.cast(value);
  }

  private static IllegalArgumentException wrong(String path, String why) {
    return new IllegalArgumentException(path + ": " + why);
  }

  private <T> T get(String name, Kind kind, Class<T> type) {
    if (schema.stream().noneMatch(p -> p.name().equals(name) && p.kind() == kind)) {
      throw wrong(name, "the schema has no " + kind + " of this name");
    }
    return cast(values.get(name), type, name);
  }

  @Override
  public double number(String name) {
    return get(name, Kind.NUMBER, Double.class);
  }

  @Override
  public long integer(String name) {
    return get(name, Kind.INTEGER, Long.class);
  }

  @Override
  public boolean bool(String name) {
    return get(name, Kind.BOOL, String.class).equals("TRUE");
  }

  @Override
  public String text(String name) {
    boolean choice =
        schema.stream().anyMatch(p -> p.name().equals(name) && p.kind() == Kind.CHOICE);
    return get(name, choice ? Kind.CHOICE : Kind.TEXT, String.class);
  }

  /** {@inheritDoc} An optional one that is not given is refused: ask {@link #has} first. */
  @Override
  public Settings item(String name) {
    return get(name, Kind.ITEM, Settings.class);
  }

  @Override
  public List<Settings> list(String name) {
    List<Settings> all = new ArrayList<>();
    List<?> items = get(name, Kind.LIST, List.class);
    for (Object each : items) {
      all.add((Settings) each);
    }
    return all;
  }

  @Override
  public Map<String, Settings> named(String name) {
    Map<String, Settings> all = new LinkedHashMap<>();
    mapping(get(name, Kind.NAMED, Map.class), name)
        .forEach((key, each) -> all.put(key, (Settings) each));
    return all;
  }

  @Override
  public boolean has(String name) {
    return given.containsKey(name);
  }
}
