package bufferstop.model;

import java.util.Collection;

/** The names an expression may use. Names are case-insensitive. */
public interface Scope {

  /** The symbol of that name, or null. */
  Symbol find(String name);

  /** Types, constants and arrays that expressions may use as well. */
  default Definitions definitions() {
    return Definitions.NONE;
  }

  /** The array of that name, or null. */
  default ArrayOf array(String name) {
    ArrayBounds bounds = definitions().array(name);
    Symbol first = bounds == null ? null : find(bounds.element(bounds.least()));
    return first == null ? null : new ArrayOf(bounds, first);
  }

  /**
   * Cells in a row for what a STRING expression works out.
   *
   * @return the first of them; null where expressions have no memory
   */
  default Symbol scratch(int cells) {
    return null;
  }

  /** All names, for suggestions. */
  Collection<String> names();
}
