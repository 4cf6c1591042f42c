package bufferstop.modbus;

import java.util.concurrent.TimeUnit;

/** Waiting for threads to end. */
final class Threads {
  private static final long JOIN_MILLIS = TimeUnit.SECONDS.toMillis(5);

  private Threads() {}

  /** Joins; an interrupt of the caller is kept for him. */
  static void join(Thread thread) {
    try {
      thread.join(JOIN_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
