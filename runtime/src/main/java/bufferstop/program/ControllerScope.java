package bufferstop.program;

import bufferstop.model.Definitions;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.st.UserFunction;
import java.util.Collection;
import java.util.Map;

/** What the expressions and the logic of a controller may name and call. */
final class ControllerScope extends CallableScope {

  ControllerScope(Scope project, Map<String, UserFunction> functions) {
    super(project, functions);
  }

  @Override
  public Symbol find(String name) {
    return project.find(name);
  }

  @Override
  public Definitions definitions() {
    return project.definitions();
  }

  @Override
  public Collection<String> names() {
    return project.names();
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
