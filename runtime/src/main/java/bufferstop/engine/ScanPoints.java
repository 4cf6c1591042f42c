package bufferstop.engine;

import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.Position;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import java.util.Arrays;

/**
 * The points under {@code scan}: errors, first_error, time, count, first. They are declared before
 * all others, since code finds the first of them at {@link SystemCells}.
 */
public final class ScanPoints {
  private final int count;
  private final int first;
  private final int forces;

  private ScanPoints(Layout layout) {
    cell(layout, "scan.errors", Type.ULINT, "errors in expressions since the start");
    cell(layout, "scan.first_error", Type.UDINT, "number of the place of the first, 0 for none");
    cell(layout, "scan.time", Type.TIME, "logical time of this scan");
    layout.remember("scan#passes", Type.UDINT);
    count = cell(layout, "scan.count", Type.UDINT, "scans before this one");
    first = cell(layout, "scan.first", Type.BOOL, "TRUE in the first scan after a start");
    forces = cell(layout, "scan.forces", Type.UDINT, "inputs and outputs that are forced");
  }

  /** Declares them; the layout must be empty. */
  public static ScanPoints declare(Layout layout) {
    return new ScanPoints(layout);
  }

  private static int cell(Layout layout, String name, Type type, String text) {
    return layout
        .add(name, type, Kind.INTERNAL, Seen.BY_ALL, "", text, Position.ofFile(""))
        .index();
  }

  /** Forgets what happened so far. */
  void clear(long[] cells) {
    Arrays.fill(cells, 0, forces + 1, 0);
  }

  void begin(long[] cells, long nowMicros, long scans, int forced) {
    cells[SystemCells.TIME] = nowMicros;
    cells[SystemCells.PASSES] = 0;
    cells[count] = scans & 0xFFFF_FFFFL;
    cells[first] = scans == 0 ? 1 : 0;
    cells[forces] = forced;
  }
}
