package bufferstop.st;

import bufferstop.model.Definitions;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import java.util.Collection;
import java.util.List;

/** A scope with types and constants alone. */
record Defined(Definitions definitions) implements Scope {

  @Override
  public Symbol find(String name) {
    return null;
  }

  @Override
  public Collection<String> names() {
    return List.of();
  }
}
