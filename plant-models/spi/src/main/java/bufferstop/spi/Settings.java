package bufferstop.spi;

import java.util.List;
import java.util.Map;

/**
 * Values for one mapping of a plant's parameters, already checked against the schema, defaults
 * filled in. Asking for a name the schema does not hold, or as another kind, is an {@link
 * IllegalArgumentException}: a mistake in the plug-in, not in the user's file.
 */
public interface Settings {

  /** A NUMBER, in the unit its parameter declares. */
  double number(String name);

  /** An INTEGER. */
  long integer(String name);

  /** A BOOL. */
  boolean bool(String name);

  /** A TEXT or CHOICE. */
  String text(String name);

  /** An ITEM. */
  Settings item(String name);

  /** A LIST, in file order. */
  List<Settings> list(String name);

  /** A NAMED, in file order. */
  Map<String, Settings> named(String name);

  /** Whether the file itself gives the parameter (not its default). */
  boolean has(String name);
}
