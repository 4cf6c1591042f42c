package bufferstop.modbus;

import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;

/** Scans of one or more benches every millisecond on a thread of their own. */
final class RunningScans implements AutoCloseable {
  private final ScheduledExecutorService scanner = Executors.newSingleThreadScheduledExecutor();

  private final Bench[] benches;

  RunningScans(Bench... benches) {
    this.benches = benches;
  }

  RunningScans begin() {
    for (Bench bench : benches) {
      scanner.scheduleAtFixedRate(bench::scan, 0, 1, TimeUnit.MILLISECONDS);
    }
    return this;
  }

  @Override
  public void close() {
    scanner.shutdownNow();
  }
}
