package bufferstop.st;

import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import java.util.Collection;
import java.util.List;

/** A scope without names, for literals. */
enum NoNames implements Scope {
  NONE;

  @Override
  public Symbol find(String name) {
    return null;
  }

  @Override
  public Collection<String> names() {
    return List.of();
  }
}
