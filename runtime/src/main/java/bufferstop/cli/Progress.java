package bufferstop.cli;

import java.io.PrintWriter;

/** A bar on a terminal that grows with what is done; elsewhere nothing. */
final class Progress {
  private static final int WIDTH = 40;

  private final PrintWriter terminal; // null where there is none
  private final int total;
  private int done;

  private Progress(PrintWriter terminal, int total) {
    this.terminal = terminal;
    this.total = total;
  }

  /** One for so many steps, if standard output is a terminal. */
  static Progress onTerminal(PrintWriter out, int total) {
    return new Progress(System.console() == null ? null : out, total);
  }

  /** Takes the bar away, so that a line can be printed in its place. */
  void clear() {
    if (terminal != null) {
      terminal.print("\r" + " ".repeat(WIDTH + 24) + "\r");
    }
  }

  /** One more step is done. */
  void step() {
    done++;
    if (terminal != null && done < total) {
      int filled = WIDTH * done / total;
      terminal.print(
          "[" + "#".repeat(filled) + ".".repeat(WIDTH - filled) + "] " + done + " of " + total);
      terminal.flush();
    }
  }
}
