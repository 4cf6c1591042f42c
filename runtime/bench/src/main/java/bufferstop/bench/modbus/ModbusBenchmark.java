package bufferstop.bench.modbus;

import bufferstop.bench.Benchmark;
import bufferstop.bench.Row;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** Reads and writes of the product's server beside three others. */
public final class ModbusBenchmark implements Benchmark {

  @Override
  public List<Row> run(Path top, boolean brief) throws Exception {
    Path folder = Files.createTempDirectory("bufferstop-bench");
    List<Row> rows = new ArrayList<>();
    Path project = BenchProject.in(folder);
    try {
      reads(project, folder, brief, rows);
      try (ServerProcess product = ServerProcess.product(project)) {
        new WriteWaits(product).measure(brief ? 50 : 1000, rows);
        new Disturbance(product).measure(brief ? 1000 : 10_000, rows);
      }
      try (ServerProcess product = ServerProcess.product(project)) {
        new IdleClients(product).measure(brief ? 1000 : 10_000, rows);
      }
    } finally {
      delete(folder);
    }
    return rows;
  }

  private static void reads(Path project, Path folder, boolean brief, List<Row> rows)
      throws IOException, InterruptedException {
    try (ServerProcess product = ServerProcess.product(project);
        ServerProcess stock = ServerProcess.stock();
        ServerProcess libmodbus =
            ServerProcess.compiled("libmodbus", "libmodbus-server.c", folder, "-lmodbus");
        ServerProcess echo = ServerProcess.compiled("bare echo", "echo.c", folder)) {
      List<ServerProcess> others =
          Stream.of(libmodbus, stock, echo).filter(server -> server != null).toList();
      new ReadLoads(product, others, brief).measure(rows);
    }
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
