package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import java.util.ArrayList;
import java.util.List;

/**
 * A check table: one column is one scan. A row named after an operator point drives it before the
 * scan; every other row is expected after it. The row {@code t} gives the scans' times in
 * milliseconds; without it scans are 100 ms apart. A row with a star names what is TRUE.
 */
public final class ScanTable {
  private static final long EVEN_MILLIS = 100;

  private final SmallController on;
  private final List<List<String>> drive = new ArrayList<>();
  private final List<List<String>> expect = new ArrayList<>();
  private List<String> times;

  private ScanTable(SmallController on, String text) {
    this.on = on;
    text.strip().lines().map(line -> List.of(line.strip().split("\\s+"))).forEach(this::sort);
    assertFalse(expect.isEmpty(), "a table that expects nothing");
  }

  private void sort(List<String> row) {
    String name = row.get(0);
    if (name.equals("t")) {
      times = row;
    } else if (isDriven(name)) {
      drive.add(row);
    } else {
      expect.add(row);
    }
  }

  private boolean isDriven(String name) {
    Symbol symbol = on.rig().layout().field().find(name);
    return symbol != null && symbol.kind() == Kind.OPERATOR;
  }

  /** Plays a table scan by scan and compares every expected row with what came of it. */
  public static void play(SmallController on, String text) {
    new ScanTable(on, text).play();
  }

  private void play() {
    List<List<String>> seen = new ArrayList<>();
    expect.forEach(row -> seen.add(new ArrayList<>(row.subList(0, 1))));
    for (int scan = 1; scan < expect.get(0).size(); scan++) {
      for (List<String> row : drive) {
        on.set(row.get(0), Long.parseLong(row.get(scan)));
      }
      on.scanAt(times == null ? (scan - 1) * EVEN_MILLIS : Long.parseLong(times.get(scan)));
      for (List<String> row : seen) {
        row.add(show(row.get(0)));
      }
    }
    assertEquals(text(expect), text(seen));
  }

  private String show(String name) {
    return name.contains("*") ? on.trueOf(name) : Long.toString(on.get(name));
  }

  private static String text(List<List<String>> rows) {
    return String.join("\n", rows.stream().map(row -> String.join("  ", row)).toList());
  }
}
