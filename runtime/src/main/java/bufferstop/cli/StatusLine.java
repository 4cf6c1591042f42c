package bufferstop.cli;

import bufferstop.engine.ScanStatistics;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.rig.Rig;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.locks.LockSupport;

/** One line on a terminal, renewed every second: time, scans, active steps, alarms. */
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
    Thread thread = new Thread(() -> renew(rig, statistics, out), "status");
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

  private static void renew(Rig rig, ScanStatistics statistics, PrintWriter out) {
    List<Symbol> steps =
        rig.layout().observable().stream()
            .filter(s -> s.type() == Type.BOOL && s.name().endsWith(".X"))
            .toList();
    Symbol time = rig.layout().field().find("scan.time");
    Symbol alarm = rig.layout().field().find("alarms.active");
    int[] cells = new int[steps.size() + 2];
    for (int i = 0; i < steps.size(); i++) {
      cells[i] = steps.get(i).index();
    }
    cells[steps.size()] = time.index();
    cells[steps.size() + 1] = alarm.index();
    long[] values = new long[cells.length];
    while (!Thread.interrupted()) {
      LockSupport.parkNanos(RENEWED_NANOS);
      if (rig.snapshots().published() >= 0) {
        rig.snapshots().copy(cells, 0, cells.length, values);
        out.printf(Locale.ROOT, "\r%-" + WIDTH + "s", line(steps, values, statistics));
        out.flush();
      }
    }
    out.println();
  }

  private static String line(List<Symbol> steps, long[] values, ScanStatistics statistics) {
    StringBuilder line = new StringBuilder(Values.time(values[steps.size()] / 1000 * 1000));
    line.append("  ").append(statistics.scans()).append(" scans, ");
    line.append(statistics.skipped()).append(" skipped");
    for (int i = 0; i < steps.size(); i++) {
      if (values[i] != 0) {
        String name = steps.get(i).name();
        line.append("  ").append(name, 0, name.length() - 2);
      }
    }
    line.append(values[steps.size() + 1] != 0 ? "  ALARM" : "");
    return line.length() > WIDTH ? line.substring(0, WIDTH) : line.toString();
  }
}
