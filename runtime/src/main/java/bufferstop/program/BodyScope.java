package bufferstop.program;

import bufferstop.model.Definitions;
import bufferstop.model.NamedConstant;
import bufferstop.model.Routine;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.st.CallScope;
import bufferstop.st.Instance;
import bufferstop.st.UserFunction;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * What the body of a function or block may name: its own pins and state, constants, {@code scan},
 * and other functions; no point, so that a library fits every project.
 */
final class BodyScope implements CallScope {
  private static final String SCAN = "scan.";

  private final Routine routine;
  private final Scope project;
  private final Map<String, UserFunction> functions;
  private final Map<String, Symbol> own = new TreeMap<>();
  private final Map<String, String> refusals = new TreeMap<>(); // of own names, why
  private final Map<String, Instance> instances = new TreeMap<>();

  /**
   * The scope of a routine's body, with nothing of its own yet.
   *
   * @param project the names of the project's controller
   * @param functions all users' functions by upper-case name
   */
  BodyScope(Routine routine, Scope project, Map<String, UserFunction> functions) {
    this.routine = routine;
    this.project = project;
    this.functions = functions;
  }

  /** Adds a name that the body may assign. */
  void add(Symbol symbol) {
    own.put(key(symbol.name()), symbol);
  }

  /** Adds a name that the body only reads. */
  void add(Symbol symbol, String refusal) {
    add(symbol);
    refusals.put(key(symbol.name()), refusal);
  }

  /** Adds an instance that the body may call. */
  void add(Instance instance) {
    instances.put(key(instance.name()), instance);
  }

  private static String key(String name) {
    return name.toLowerCase(Locale.ROOT);
  }

  /** Why the body may not assign a symbol; null when it may. */
  String refusal(Symbol symbol) {
    if (own.get(key(symbol.name())) == symbol) {
      return refusals.get(key(symbol.name()));
    }
    return routine.isFunction()
        ? "a function assigns its locals and its value only"
        : "a function block assigns its outputs and its state only";
  }

  @Override
  public Symbol find(String name) {
    Symbol symbol = own.get(key(name));
    return symbol == null && key(name).startsWith(SCAN) ? project.find(name) : symbol;
  }

  /** Types and constants of the project, but none of its arrays; own names win. */
  @Override
  public Definitions definitions() {
    Definitions all = project.definitions();
    List<NamedConstant> constants =
        all.constants().stream().filter(c -> !own.containsKey(key(c.name()))).toList();
    return new Definitions(all.enumerations(), constants, List.of());
  }

  @Override
  public Symbol scratch(int cells) {
    return project.scratch(cells);
  }

  @Override
  public Collection<String> names() {
    List<String> names = new ArrayList<>(own.values().stream().map(Symbol::name).toList());
    project.names().stream().filter(n -> key(n).startsWith(SCAN)).forEach(names::add);
    return names;
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
    return instances.get(key(name));
  }

  @Override
  public Collection<String> instances() {
    return instances.values().stream().map(Instance::name).toList();
  }

  @Override
  public String kindOfNames() {
    return routine.isFunction() ? "input or local" : "input, output or state";
  }

  @Override
  public String helpAbout(String name) {
    return project.find(name) == null
        ? ""
        : "a body names no points of a project: make `" + name + "` an input";
  }
}
