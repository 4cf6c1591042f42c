package bufferstop.program;

import bufferstop.model.Definitions;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.st.CallScope;
import bufferstop.st.Instance;
import bufferstop.st.UserFunction;
import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** What the expressions and the logic of a controller may name and call. */
final class ControllerScope implements CallScope {
  private final Scope points;
  private final Map<String, UserFunction> functions;
  private final Map<String, Instance> instances = new TreeMap<>(); // by lower-case name

  /**
   * A scope without instances yet.
   *
   * @param functions all users' functions by upper-case name
   */
  ControllerScope(Scope points, Map<String, UserFunction> functions) {
    this.points = points;
    this.functions = functions;
  }

  void add(Instance instance) {
    instances.put(instance.name().toLowerCase(Locale.ROOT), instance);
  }

  @Override
  public Symbol find(String name) {
    return points.find(name);
  }

  @Override
  public Definitions definitions() {
    return points.definitions();
  }

  @Override
  public Symbol scratch(int cells) {
    return points.scratch(cells);
  }

  @Override
  public Collection<String> names() {
    return points.names();
  }

  @Override
  public UserFunction function(String name) {
    return functions.get(name.toUpperCase(Locale.ROOT));
  }

  @Override
  public Collection<String> functions() {
    return functions.values().stream().map(UserFunction::name).toList();
  }

  @Override
  public Instance instance(String name) {
    return instances.get(name.toLowerCase(Locale.ROOT));
  }

  @Override
  public Collection<String> instances() {
    return instances.values().stream().map(Instance::name).toList();
  }

  @Override
  public String kindOfNames() {
    return "point";
  }

  @Override
  public String helpAbout(String name) {
    return "";
  }
}
