package bufferstop.cli;

import bufferstop.engine.ScanFailure;
import bufferstop.engine.ScanStatistics;
import bufferstop.report.AlarmText;
import bufferstop.report.StatisticsText;
import bufferstop.report.VerdictText;
import bufferstop.rig.LiveRun;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.function.IntSupplier;
import java.util.function.Supplier;

/** A run in real time from its first scan to its last words. */
final class LiveSession {
  static final String CAUTION =
      "caution: this proves logic on the bench; it is no safety system. Emergency stop, guards"
          + " and protective relays act on their own hardware; local codes and licensed practice"
          + " decide.";

  private final Rig rig;
  private final LiveRun run;
  private final PrintWriter out;
  private final PrintWriter err;

  LiveSession(Rig rig, LiveRun run, PrintWriter out, PrintWriter err) {
    this.rig = rig;
    this.run = run;
    this.out = out;
    this.err = err;
  }

  /**
   * Scans until the time is up or the user ends it.
   *
   * @param forMicros 0 for no end
   * @param commands whether somebody may type commands
   * @param record where the run is recorded, or null
   * @param afterwards done when outputs are safe; gives an exit status
   * @param figures lines for the end
   * @return exit status
   */
  int scan(
      long forMicros,
      boolean commands,
      Path record,
      IntSupplier afterwards,
      Supplier<List<String>> figures) {
    int[] status = {Exit.OK};
    Signals signals = Signals.onEnd(run::stop, () -> status[0]);
    StatusLine line = commands ? null : StatusLine.onTerminal(rig, run.statistics(), out);
    LiveConsole hands = commands ? LiveConsole.start(rig, run, out) : null;
    try {
      run.scan(forMicros);
    } catch (ScanFailure e) {
      err.println("bufferstop: outputs are safe, the run ended: " + e.getMessage());
      err.flush();
      status[0] = Exit.RUN_FAILED;
    } finally {
      if (line != null) {
        line.end();
      }
      if (hands != null) {
        hands.end();
      }
    }
    int ended = afterwards.getAsInt();
    status[0] = finish(ended == Exit.OK ? status[0] : ended, record);
    ScanStatistics statistics = run.statistics();
    out.print(StatisticsText.render(statistics, rig.project().periodMicros()));
    out.print(VerdictText.bypasses(run.bypasses()));
    out.print(AlarmText.summary(run.alarms()));
    if (!rig.firstError().isEmpty()) {
      out.println("errors in expressions; the first: " + rig.firstError());
    }
    figures.get().forEach(out::println);
    out.flush();
    signals.workEnded();
    return status[0];
  }

  private int finish(int status, Path record) {
    try {
      String sha256 = run.finish();
      if (record != null) {
        out.println("recording: " + record + ", trace " + sha256);
      }
      return status;
    } catch (IOException e) {
      err.println("bufferstop: the recording is not whole: " + Said.plainly(e));
      err.flush();
      return Exit.RUN_FAILED;
    }
  }

  /** Opens the hmi map; gives its port, or a negative number after saying why not. */
  int open() {
    try {
      return run.open();
    } catch (IOException e) {
      err.println("bufferstop: " + e.getMessage());
      err.flush();
      return -1;
    }
  }
}
