package bufferstop.bench;

import bufferstop.bench.modbus.ModbusBenchmark;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** {@code scripts/bench NAME [--json FILE] [--brief]}. */
public final class Bench {
  private static final Map<String, Benchmark> ALL = new TreeMap<>();

  static {
    ALL.put("feeder", new FeederBenchmark());
    ALL.put("modbus", new ModbusBenchmark());
    ALL.put("plant", new PlantBenchmark());
    ALL.put("scan", new ScanBenchmark());
    ALL.put("scenario", new ScenarioBenchmark());
    ALL.put("start", new StartBenchmark());
  }

  private Bench() {}

  /** Ends with 0, or with 2 for wrong usage. */
  public static void main(String[] args) throws Exception {
    System.exit(run(Path.of(System.getProperty("bufferstop.top", ".")), args));
  }

  static int run(Path top, String... args) throws Exception {
    List<String> words = new ArrayList<>(Arrays.asList(args));
    boolean brief = words.remove("--brief");
    int json = words.indexOf("--json");
    String file = json >= 0 && json + 1 < words.size() ? words.get(json + 1) : null;
    if (file != null) {
      words.subList(json, json + 2).clear();
    }
    Benchmark benchmark = words.size() == 1 ? ALL.get(words.get(0)) : null;
    if (benchmark == null) {
      System.err.println("usage: scripts/bench NAME [--json FILE] [--brief]");
      System.err.println("NAME is one of: " + String.join(", ", ALL.keySet()));
      return 2;
    }
    List<Row> rows = benchmark.run(top, brief);
    System.out.print(Table.text(rows));
    if (file != null) {
      Files.writeString(Path.of(file), Table.json(rows));
    }
    return 0;
  }
}
