package bufferstop.plant;

import bufferstop.model.Tree;
import bufferstop.spi.Parameter;
import bufferstop.spi.Settings;
import java.util.List;
import java.util.Map;

/**
 * Settings that passed the schema.
 *
 * @param table where they stand
 * @param schema the parameters
 * @param values by name: Double, Long, Boolean, String, CheckedSettings, List or Map of it
 */
record CheckedSettings(Tree.Table table, List<Parameter> schema, Map<String, Object> values)
    implements Settings {

  private <T> T value(String name, Class<T> kind) {
    Object value = values.get(name);
    if (value == null && schema.stream().noneMatch(p -> p.name().equals(name))) {
      throw new IllegalArgumentException("the schema has no parameter " + name);
    }
    if (!kind.isInstance(value)) {
      throw new IllegalArgumentException(name + " is not a " + kind.getSimpleName());
    }
    return kind.cast(value);
  }

  @Override
  public double number(String name) {
    return value(name, Double.class);
  }

  @Override
  public long integer(String name) {
    return value(name, Long.class);
  }

  @Override
  public boolean bool(String name) {
    return value(name, Boolean.class);
  }

  @Override
  public String text(String name) {
    return value(name, String.class);
  }

  @Override
  public Settings item(String name) {
    return value(name, Settings.class);
  }

  @Override
  @SuppressWarnings("unchecked") // the reader puts nothing else under a LIST
  public List<Settings> list(String name) {
    return value(name, List.class);
  }

  @Override
  @SuppressWarnings("unchecked") // the reader puts nothing else under a NAMED
  public Map<String, Settings> named(String name) {
    return value(name, Map.class);
  }

  @Override
  public boolean has(String name) {
    return table.get(name) != null;
  }
}
