package bufferstop.cli;

/** Exit status of the process. */
final class Exit {
  static final int OK = 0;

  /** A scenario failed or was inconclusive, or {@code check} found an error. */
  static final int NOT_PROVEN = 1;

  /** Wrong usage, or a project or scenario that cannot be loaded. */
  static final int NOT_LOADED = 2;

  /** The run itself failed: watchdog, plant, port in use. */
  static final int RUN_FAILED = 3;

  private Exit() {}
}
