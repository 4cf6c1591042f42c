package bufferstop.engine;

import bufferstop.model.Project;
import bufferstop.model.Values;

/**
 * Brings scans and a clock together: waits, lets the field catch up, scans, watches the time taken.
 */
public final class ScanLoop {
  private final Engine engine;
  private final Clock clock;
  private final Project project;

  public ScanLoop(Engine engine, Clock clock, Project project) {
    this.engine = engine;
    this.clock = clock;
    this.project = project;
  }

  /**
   * Waits for the next scan and performs it.
   *
   * @throws ScanFailure when the scan took longer than the watchdog allows, or when more time was
   *     lost than the field may catch up; outputs are then safe
   */
  public void next() {
    long skipped = clock.awaitNext();
    long lost = skipped * project.periodMicros();
    if (lost > project.catchUpMicros()) {
      engine.makeSafe();
      throw new ScanFailure(
          "no scan for "
              + Values.time(lost)
              + ", more than catch_up allows ("
              + Values.time(project.catchUpMicros())
              + ")");
    }
    engine.catchUp(skipped);
    engine.scan(skipped);
    long micros = clock.performed() / 1000;
    if (micros > project.watchdogMicros()) {
      engine.makeSafe();
      throw new ScanFailure(
          "a scan took "
              + Values.time(micros)
              + ", longer than the watchdog allows ("
              + Values.time(project.watchdogMicros())
              + ")");
    }
  }
}
