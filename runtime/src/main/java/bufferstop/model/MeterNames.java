package bufferstop.model;

import java.util.List;

/**
 * What a meter's values are called: any plant whose ports are named so has a meter that can be
 * billed and shown to SunSpec clients.
 */
public final class MeterNames {
  /** Active energy imported, Wh. */
  public static final String IMPORTED = ".imported";

  /** Active energy exported, Wh. */
  public static final String EXPORTED = ".exported";

  /** Reactive energy, lagging while importing, varh. */
  public static final String REACTIVE = ".reactive_1";

  /** Apparent energy while importing, VAh. */
  public static final String APPARENT = ".apparent_imported";

  /** BOOL: the meter has no voltage. */
  public static final String POWER_FAILED = ".power_failed";

  private MeterNames() {}

  /** Heads of the names of all meters there are. */
  public static List<String> heads(Scope scope) {
    return scope.names().stream()
        .filter(n -> n.endsWith(IMPORTED) && !n.endsWith(APPARENT))
        .map(n -> n.substring(0, n.length() - IMPORTED.length()))
        .toList();
  }
}
