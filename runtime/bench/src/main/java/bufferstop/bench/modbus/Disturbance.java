package bufferstop.bench.modbus;

import bufferstop.bench.Row;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.HdrHistogram.Histogram;

/** An HMI that polls, alone and then beside ten silent clients and one that floods with garbage. */
final class Disturbance {
  private static final int SILENT = 10;
  private static final long POLL_NANOS = TimeUnit.MILLISECONDS.toNanos(2);
  private static final double NANOS_PER_MICRO = 1000;
  private static final Pattern SKIPPED = Pattern.compile("(\\d[\\d,]*) skipped|skipped (\\d+)");

  private final ServerProcess product;

  Disturbance(ServerProcess product) {
    this.product = product;
  }

  void measure(long millis, List<Row> rows) throws IOException, InterruptedException {
    poll(millis / 2);
    Histogram alone = poll(millis);
    Histogram beside;
    List<Socket> silent = new ArrayList<>();
    Flood flood = new Flood(product.port());
    Thread flooding = new Thread(flood, "flood");
    flooding.start();
    try {
      for (int i = 0; i < SILENT; i++) {
        silent.add(new Socket(InetAddress.getLoopbackAddress(), product.port()));
      }
      beside = poll(millis);
    } finally {
      flood.end = true;
      flooding.join();
      for (Socket socket : silent) {
        socket.close();
      }
    }
    for (double percentile : new double[] {50, 99, 99.9}) {
      String p = "p" + (percentile == 99.9 ? "99.9" : Integer.toString((int) percentile));
      rows.add(
          new Row(
              "HMI beside 10 silent and a flood, " + p,
              beside.getValueAtPercentile(percentile) / NANOS_PER_MICRO,
              "us",
              "HMI alone",
              alone.getValueAtPercentile(percentile) / NANOS_PER_MICRO));
    }
    double seconds = millis / 1000.0;
    rows.add(Row.alone("garbage beside it", flood.bytes / 1e6 / seconds, "MB/s"));
    rows.add(Row.alone("scans skipped meanwhile", skipped(product.end()), ""));
  }

  private static double skipped(String statistics) {
    Matcher matcher = SKIPPED.matcher(statistics);
    if (!matcher.find()) {
      throw new IllegalStateException("no skipped scans in: " + statistics);
    }
    String count = matcher.group(1) == null ? matcher.group(2) : matcher.group(1);
    return Double.parseDouble(count.replace(",", ""));
  }

  private Histogram poll(long millis) throws IOException {
    Histogram latencies = new Histogram(TimeUnit.SECONDS.toNanos(5), 3);
    long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(millis);
    try (Hmi hmi = new Hmi(product.port())) {
      while (System.nanoTime() < end) {
        latencies.recordValue(hmi.ask((byte) 3, (byte) 0, (byte) 0, (byte) 0, (byte) 125));
        LockSupport.parkNanos(POLL_NANOS);
      }
    }
    return latencies;
  }

  /** Random bytes as fast as the server takes them; it closes the connection, a new one follows. */
  private static final class Flood implements Runnable {
    private final int port;
    private final SplittableRandom random = new SplittableRandom(1);
    private volatile boolean end;
    private volatile long bytes;

    Flood(int port) {
      this.port = port;
    }

    @Override
    public void run() {
      byte[] garbage = new byte[4096];
      while (!end) {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
          while (!end) {
            random.nextBytes(garbage);
            socket.getOutputStream().write(garbage);
            bytes += garbage.length;
          }
        } catch (IOException e) {
          // closed by the server, as it should
        }
      }
    }
  }
}
