package bufferstop.program;

import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.st.CallScope;
import bufferstop.st.Instance;
import bufferstop.st.UserFunction;
import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** What may be called: every function of the users, and the instances that were added. */
abstract class CallableScope implements CallScope {
  final Scope project;
  private final Map<String, UserFunction> functions;
  private final Map<String, Instance> instances = new TreeMap<>(); // by lower-case name

  /**
   * A scope without instances yet.
   *
   * @param project the names of the project's controller
   * @param functions all users' functions by upper-case name
   */
  CallableScope(Scope project, Map<String, UserFunction> functions) {
    this.project = project;
    this.functions = functions;
  }

  /** Adds an instance that may be called. */
  final void add(Instance instance) {
    instances.put(instance.name().toLowerCase(Locale.ROOT), instance);
  }

  @Override
  public final Symbol scratch(int cells) {
    return project.scratch(cells);
  }

  @Override
  public final UserFunction function(String name) {
    return functions.get(name.toUpperCase(Locale.ROOT));
  }

  @Override
  public final Collection<String> functions() {
    return functions.values().stream().map(UserFunction::name).toList();
  }

  @Override
  public final Instance instance(String name) {
    return instances.get(name.toLowerCase(Locale.ROOT));
  }

  @Override
  public final Collection<String> instances() {
    return instances.values().stream().map(Instance::name).toList();
  }
}
