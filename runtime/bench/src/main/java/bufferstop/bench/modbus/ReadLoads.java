package bufferstop.bench.modbus;

import bufferstop.bench.Row;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/**
 * Reads of three sizes over 1, 8 and 64 connections with 1 and 16 requests in flight on each. The
 * servers take turns, so that whatever else the machine does falls on all of them; medians of the
 * rounds are given.
 */
final class ReadLoads {
  private static final int[] CONNECTIONS = {1, 8, 64};
  private static final int[] IN_FLIGHT = {1, 16};
  private static final double NANOS_PER_MICRO = 1000;

  private final ServerProcess product;
  private final List<ServerProcess> all = new ArrayList<>();
  private final int rounds;
  private final long millis;
  private final long warmMillis;

  private record Read(String name, int function, int quantity, int answerSize) {
    byte[] frame() {
      return new byte[] {
        0, 1, 0, 0, 0, 6, 1, (byte) function, 0, 0, (byte) (quantity >> 8), (byte) quantity
      };
    }
  }

  private static final List<Read> READS =
      List.of(
          new Read("FC 3 x 1", 3, 1, 11),
          new Read("FC 3 x 125", 3, 125, 259),
          new Read("FC 1 x 2000", 1, 2000, 259));

  ReadLoads(ServerProcess product, List<ServerProcess> others, boolean brief) {
    this.product = product;
    all.add(product);
    all.addAll(others);
    rounds = brief ? 1 : 5;
    millis = brief ? 100 : 1000;
    warmMillis = brief ? 100 : 3000;
  }

  void measure(List<Row> rows) throws IOException {
    for (ServerProcess server : all) {
      for (Read read : READS) {
        figures(server, read, 8, 1, warmMillis);
      }
    }
    for (int inFlight : IN_FLIGHT) {
      for (Read read : READS) {
        for (int connections : CONNECTIONS) {
          measure(read, connections, inFlight, rows);
        }
      }
    }
  }

  private void measure(Read read, int connections, int inFlight, List<Row> rows)
      throws IOException {
    Map<String, List<Load.Figures>> byServer = new LinkedHashMap<>();
    for (int round = 0; round < rounds; round++) {
      for (ServerProcess server : all) {
        byServer
            .computeIfAbsent(server.name(), name -> new ArrayList<>())
            .add(figures(server, read, connections, inFlight, millis));
      }
    }
    String load = read.name() + ", " + connections + " conn, " + inFlight + " in flight";
    List<Load.Figures> own = byServer.get(product.name());
    for (ServerProcess other : all.subList(1, all.size())) {
      List<Load.Figures> theirs = byServer.get(other.name());
      row(load, "1/s", Load.Figures::perSecond, own, other.name(), theirs, rows);
    }
    for (double percentile : new double[] {50, 99, 99.9}) {
      ToDoubleFunction<Load.Figures> latency =
          f -> f.latencies().getValueAtPercentile(percentile) / NANOS_PER_MICRO;
      String name = load + ", p" + (percentile == 99.9 ? "99.9" : (int) percentile);
      if (all.size() > 1) {
        String other = all.get(1).name();
        row(name, "us", latency, own, other, byServer.get(other), rows);
      } else {
        rows.add(Row.alone(name, median(own, latency), "us"));
      }
    }
  }

  private static void row(
      String name,
      String unit,
      ToDoubleFunction<Load.Figures> figure,
      List<Load.Figures> own,
      String other,
      List<Load.Figures> theirs,
      List<Row> rows) {
    rows.add(new Row(name, median(own, figure), unit, other, median(theirs, figure)));
  }

  private static double median(List<Load.Figures> figures, ToDoubleFunction<Load.Figures> figure) {
    double[] sorted = figures.stream().mapToDouble(figure).toArray();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }

  private static Load.Figures figures(
      ServerProcess server, Read read, int connections, int inFlight, long millis)
      throws IOException {
    try (Load load =
        new Load(server.port(), read.frame(), read.answerSize(), connections, inFlight)) {
      load.run(Math.max(50, millis / 5));
      return load.run(millis);
    }
  }
}
