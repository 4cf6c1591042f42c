package bufferstop.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.IntSupplier;

/** Ctrl-C and SIGTERM: ends the run in order and gives the process the run's own status. */
final class Signals {
  private static final long LONGEST_SECONDS = 5;

  private final CountDownLatch ended = new CountDownLatch(1);
  private final Thread hook;

  private Signals(Runnable stop, IntSupplier status) {
    hook = new Thread(() -> end(stop, status), "ending");
  }

  /**
   * Arranges for an orderly end.
   *
   * @param stop asks the work to end
   * @param status what the process then ends with
   */
  static Signals onEnd(Runnable stop, IntSupplier status) {
    Signals signals = new Signals(stop, status);
    Runtime.getRuntime().addShutdownHook(signals.hook);
    return signals;
  }

  private void end(Runnable stop, IntSupplier status) {
    stop.run();
    try {
      if (!ended.await(LONGEST_SECONDS, TimeUnit.SECONDS)) {
        Runtime.getRuntime().halt(Exit.RUN_FAILED);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    Runtime.getRuntime().halt(status.getAsInt());
  }

  /** The work has ended, by a signal or by itself, and all is said. */
  void workEnded() {
    ended.countDown();
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // the process is ending already, by that very hook
    }
  }
}
