package bufferstop.bench.modbus;

import bufferstop.bench.Row;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** What fifty clients cost that say nothing, beside the same process without them. */
final class IdleClients {
  private static final int CLIENTS = 50;
  private static final double PERCENT = 100;

  private final ServerProcess product;

  IdleClients(ServerProcess product) {
    this.product = product;
  }

  void measure(long millis, List<Row> rows) throws IOException {
    percent(millis); // the first seconds of a Java process are not like the others
    double without = percent(millis);
    List<Hmi> clients = new ArrayList<>();
    try {
      for (int i = 0; i < CLIENTS; i++) {
        Hmi hmi = new Hmi(product.port());
        hmi.ask((byte) 3, (byte) 0, (byte) 0, (byte) 0, (byte) 1);
        clients.add(hmi);
      }
      double with = percent(millis);
      rows.add(
          new Row("processor, 50 idle clients, scans and all", with, "% core", "none", without));
    } finally {
      for (Hmi client : clients) {
        client.close();
      }
    }
  }

  private double percent(long millis) throws IOException {
    double before = product.cpuSeconds();
    long start = System.nanoTime();
    long end = start + TimeUnit.MILLISECONDS.toNanos(millis);
    while (System.nanoTime() < end) {
      LockSupport.parkNanos(end - System.nanoTime());
    }
    double seconds = (System.nanoTime() - start) / 1e9;
    return PERCENT * (product.cpuSeconds() - before) / seconds;
  }
}
