package bufferstop.cli;

import bufferstop.engine.ScanStatistics;
import bufferstop.rig.Rig;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.concurrent.locks.LockSupport;

/** One line on a terminal, renewed every second, with how the run stands. */
final class StatusLine {
  private static final int WIDTH = 100;
  private static final long RENEWED_NANOS = 1_000_000_000L;

  private final Thread thread; // null when there is no terminal

  private StatusLine(Thread thread) {
    this.thread = thread;
  }

  /** Starts it when standard output is a terminal. */
  static StatusLine onTerminal(Rig rig, ScanStatistics statistics, PrintWriter out) {
    if (System.console() == null) {
      return new StatusLine(null);
    }
    StatusText text = new StatusText(rig, statistics);
    Thread thread = new Thread(() -> renew(text, out), "status");
    thread.setDaemon(true);
    thread.start();
    return new StatusLine(thread);
  }

  /** Ends it. */
  void end() {
    if (thread != null) {
      thread.interrupt();
      try {
        thread.join();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private static void renew(StatusText text, PrintWriter out) {
    while (!Thread.interrupted()) {
      LockSupport.parkNanos(RENEWED_NANOS);
      String line = String.join("  ", text.lines());
      String cut = line.length() > WIDTH ? line.substring(0, WIDTH) : line;
      out.printf(Locale.ROOT, "\r%-" + WIDTH + "s", cut);
      out.flush();
    }
    out.println();
  }
}
