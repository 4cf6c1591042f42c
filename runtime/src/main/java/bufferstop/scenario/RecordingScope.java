package bufferstop.scenario;

import bufferstop.model.Definitions;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** A scope that remembers the names it did not know. */
final class RecordingScope implements Scope {
  private final Scope inner;
  private final List<String> unknown = new ArrayList<>();

  RecordingScope(Scope inner) {
    this.inner = inner;
  }

  @Override
  public Symbol find(String name) {
    Symbol symbol = inner.find(name);
    if (symbol == null && definitions().enumerationsWith(name).isEmpty()) {
      unknown.add(name);
    }
    return symbol;
  }

  @Override
  public Definitions definitions() {
    return inner.definitions();
  }

  @Override
  public Collection<String> names() {
    return inner.names();
  }

  /** Names asked for that the scope does not hold. */
  List<String> unknown() {
    return unknown;
  }
}
