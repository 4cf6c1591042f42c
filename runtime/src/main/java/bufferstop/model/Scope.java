package bufferstop.model;

import java.util.Collection;

/** The names an expression may use. Names are case-insensitive. */
public interface Scope {

  /** The symbol of that name, or null. */
  Symbol find(String name);

  /** All names, for suggestions. */
  Collection<String> names();
}
