package bufferstop.bench.modbus;

import bufferstop.bench.Row;
import java.io.IOException;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.HdrHistogram.Histogram;

/** How long a write of 100 registers waits, in scan periods, when it comes at any moment. */
final class WriteWaits {
  private static final int REGISTERS = 100;
  private static final long SCAN_NANOS = TimeUnit.MILLISECONDS.toNanos(BenchProject.SCAN_MILLIS);

  private final ServerProcess product;

  WriteWaits(ServerProcess product) {
    this.product = product;
  }

  void measure(int writes, List<Row> rows) throws IOException {
    byte[] pdu = new byte[6 + 2 * REGISTERS];
    pdu[0] = 16;
    pdu[4] = REGISTERS;
    pdu[5] = (byte) (2 * REGISTERS);
    SplittableRandom moments = new SplittableRandom(1);
    Histogram waits = new Histogram(TimeUnit.SECONDS.toNanos(5), 3);
    try (Hmi hmi = new Hmi(product.port())) {
      for (int i = 0; i < writes; i++) {
        LockSupport.parkNanos(moments.nextLong(SCAN_NANOS));
        waits.recordValue(hmi.ask(pdu));
      }
    }
    for (double percentile : new double[] {1, 50, 90, 99, 100}) {
      String name = percentile == 100 ? "most" : "p" + (int) percentile;
      double periods = waits.getValueAtPercentile(percentile) / (double) SCAN_NANOS;
      rows.add(Row.alone("FC 16 x 100 waits, " + name, periods, "scans"));
    }
  }
}
