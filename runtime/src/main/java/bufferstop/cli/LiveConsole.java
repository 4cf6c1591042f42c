package bufferstop.cli;

import bufferstop.rig.LiveRun;
import bufferstop.rig.Rig;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import org.jline.reader.Candidate;
import org.jline.reader.Completer;
import org.jline.reader.EndOfFileException;
import org.jline.reader.LineReader;
import org.jline.reader.LineReaderBuilder;
import org.jline.reader.UserInterruptException;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;
import org.jline.utils.AttributedString;
import org.jline.utils.InfoCmp.Capability;
import org.jline.utils.Status;

/**
 * The console of a live run: with completion on a terminal, a line after the other from anything
 * else. The run goes on when its input ends, except on a terminal, where that ends the run.
 */
final class LiveConsole {
  private static final long RENEWED_NANOS = 1_000_000_000L;

  private final ConsoleCommands commands;
  private final LiveRun run;
  private final PrintWriter out;
  private Terminal terminal; // null without one
  private volatile boolean ended;

  private LiveConsole(ConsoleCommands commands, LiveRun run, PrintWriter out) {
    this.commands = commands;
    this.run = run;
    this.out = out;
  }

  /** Starts reading; on a terminal if there is one. */
  static LiveConsole start(Rig rig, LiveRun run, PrintWriter out) {
    LiveConsole console = new LiveConsole(new ConsoleCommands(rig, run), run, out);
    boolean edits = System.console() != null && console.opensTerminal();
    Thread thread = new Thread(edits ? console::edit : console::read, "console");
    thread.setDaemon(true);
    thread.start();
    return console;
  }

  private boolean opensTerminal() {
    try {
      terminal = TerminalBuilder.builder().system(true).build();
      return true;
    } catch (IOException e) {
      return false; // plain lines are read then
    }
  }

  private void edit() {
    Completer completer =
        (reader, line, candidates) -> {
          List<String> before = line.words().subList(0, line.wordIndex());
          commands.candidates(before).forEach(c -> candidates.add(new Candidate(c)));
        };
    LineReader reader = LineReaderBuilder.builder().terminal(terminal).completer(completer).build();
    showStatus();
    reader.printAbove("`help` lists the commands; the tabulator completes names");
    try {
      while (true) {
        String said = commands.perform(reader.readLine("> "));
        if (!said.isEmpty()) {
          reader.printAbove(said);
        }
      }
    } catch (UserInterruptException | EndOfFileException e) {
      run.stop();
    }
  }

  /** Renews lines at the bottom of the terminal, where it can have such. */
  private void showStatus() {
    if (!holdsLines()) {
      return; // asking for a status would make one that fails when the terminal is given back
    }
    Status bar = Status.getStatus(terminal);
    Thread thread =
        new Thread(
            () -> {
              while (!ended) {
                bar.update(commands.status().lines().stream().map(AttributedString::new).toList());
                LockSupport.parkNanos(RENEWED_NANOS);
              }
            },
            "status");
    thread.setDaemon(true);
    thread.start();
  }

  /** Whether a line can be kept at its bottom: it has a size, and a region that scrolls. */
  private boolean holdsLines() {
    boolean sized = terminal.getWidth() > 0 && terminal.getHeight() > 0;
    return sized
        && Stream.of(
                Capability.change_scroll_region,
                Capability.save_cursor,
                Capability.restore_cursor,
                Capability.cursor_address)
            .allMatch(c -> terminal.getStringCapability(c) != null);
  }

  private void read() {
    try (BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        String said = commands.perform(line);
        if (!said.isEmpty()) {
          out.println(said);
          out.flush();
        }
      }
    } catch (IOException e) {
      out.println("the console can be read no more: " + e.getMessage());
      out.flush();
    }
  }

  /** Gives the terminal back. */
  void end() {
    ended = true;
    if (terminal != null) {
      try {
        terminal.close();
      } catch (IOException e) {
        out.println("the terminal could not be given back: " + e.getMessage());
      }
    }
  }
}
