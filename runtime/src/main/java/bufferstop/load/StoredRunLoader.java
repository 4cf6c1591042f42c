package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Csv;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Scenario.StoredRun;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Reads a stored run: CSV whose first column is {@code time_ms}. */
final class StoredRunLoader {
  private static final String TIME = "time_ms";
  private static final double MICROS_PER_MILLI = 1000;

  private final ProjectFiles files;
  private final Diagnostics problems;
  private final Map<String, StoredRun> known = new TreeMap<>();

  StoredRunLoader(ProjectFiles files, Diagnostics problems) {
    this.files = files;
    this.problems = problems;
  }

  /**
   * Reads the file a scenario names, from the scenario's folder.
   *
   * @return null after a diagnostic
   */
  StoredRun read(Name file) {
    StoredRun before = known.get(file.text());
    String text = before == null ? files.text(file) : null;
    if (text == null) {
      return before;
    }
    String shown = ProjectFiles.beside(file).toString().replace('\\', '/');
    try {
      StoredRun run = run(file, shown, Csv.read(text));
      if (run != null) {
        known.put(file.text(), run);
      }
      return run;
    } catch (Csv.Broken e) {
      problems.add(
          Diagnostic.error(
              Code.BAD_RECORDING, new Position(shown, e.line(), 1, 1), e.getMessage()));
      return null;
    }
  }

  private StoredRun run(Name file, String shown, List<List<String>> records) {
    if (records.size() < 2 || !records.get(0).get(0).equals(TIME) || records.get(0).size() < 2) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_RECORDING, new Position(shown, 1, 1, 1), "this is no stored run")
              .expected("a header `time_ms,NAME,...` and a row for each time")
              .help("`trace FILE --csv` writes one"));
      return null;
    }
    List<String> header = records.get(0);
    long[] micros = new long[records.size() - 1];
    List<List<String>> values = new ArrayList<>();
    for (int i = 0; i < micros.length; i++) {
      List<String> record = records.get(i + 1);
      micros[i] = micros(record.get(0));
      if (micros[i] < 0 || i > 0 && micros[i] <= micros[i - 1]) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_RECORDING,
                    new Position(shown, i + 2, 1, Math.max(1, record.get(0).length())),
                    "`" + record.get(0) + "` is no time after the one before")
                .expected("milliseconds, rising from row to row"));
        return null;
      }
      values.add(record.subList(1, record.size()));
    }
    return new StoredRun(file, header.subList(1, header.size()), micros, List.copyOf(values));
  }

  private static long micros(String millis) {
    try {
      return Math.round(Double.parseDouble(millis) * MICROS_PER_MILLI);
    } catch (NumberFormatException e) {
      return -1;
    }
  }
}
