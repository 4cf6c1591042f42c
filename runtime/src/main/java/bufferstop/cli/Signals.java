package bufferstop.cli;

import java.util.function.IntSupplier;

/** Ctrl-C and SIGTERM: ends the run in order and gives the process the run's own status. */
final class Signals {
  private static final long LONGEST_MILLIS = 5_000;

  private Signals() {}

  /**
   * Arranges for an orderly end.
   *
   * @param stop asks the calling thread's work to end
   * @param status what the process then ends with
   * @return to be given to {@link #forget} when the work ended by itself
   */
  static Thread onEnd(Runnable stop, IntSupplier status) {
    Thread working = Thread.currentThread();
    Thread hook =
        new Thread(
            () -> {
              stop.run();
              try {
                working.join(LONGEST_MILLIS);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              Runtime.getRuntime().halt(status.getAsInt());
            },
            "ending");
    Runtime.getRuntime().addShutdownHook(hook);
    return hook;
  }

  static void forget(Thread hook) {
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // the process is ending already, by that very hook
    }
  }
}
