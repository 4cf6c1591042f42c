package bufferstop.program;

import bufferstop.model.ArrayBounds;
import bufferstop.model.Definitions;
import bufferstop.model.NamedConstant;
import bufferstop.model.Routine;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
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
final class BodyScope extends CallableScope {
  private static final String SCAN = "scan.";

  private final Routine routine;
  private final Map<String, Symbol> own = new TreeMap<>();
  private final Map<String, String> refusals = new TreeMap<>(); // of own names, why
  private final List<ArrayBounds> arrays = new ArrayList<>(); // own ones
  private Definitions definitions; // once they are asked for

  /**
   * The scope of a routine's body, with nothing of its own yet.
   *
   * @param project the names of the project's controller
   * @param functions all users' functions by upper-case name
   */
  BodyScope(Routine routine, Scope project, Map<String, UserFunction> functions) {
    super(project, functions);
    this.routine = routine;
  }

  /**
   * Adds a name.
   *
   * @param refusal why the body may not assign it; null when it may
   */
  void add(Symbol symbol, String refusal) {
    own.put(key(symbol.name()), symbol);
    if (refusal != null) {
      refusals.put(key(symbol.name()), refusal);
    }
  }

  /** Adds an array, whose elements are added by themselves. */
  void add(ArrayBounds array) {
    arrays.add(array);
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

  /** Types and constants of the project, and own arrays; own names win. To be asked for last. */
  @Override
  public Definitions definitions() {
    if (definitions == null) {
      Definitions all = project.definitions();
      List<NamedConstant> constants =
          all.constants().stream().filter(c -> !own.containsKey(key(c.name()))).toList();
      definitions = new Definitions(all.enumerations(), constants, List.copyOf(arrays));
    }
    return definitions;
  }

  @Override
  public Collection<String> names() {
    List<String> names = new ArrayList<>(own.values().stream().map(Symbol::name).toList());
    project.names().stream().filter(n -> key(n).startsWith(SCAN)).forEach(names::add);
    return names;
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
