package bufferstop.engine;

import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.Position;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;

/**
 * The points under {@code scan}: errors (cell 0, counted by expressions), time, count, first. They
 * are declared before all others, since expressions count their errors in cell 0.
 */
public final class ScanPoints {
  private final int time;
  private final int count;
  private final int first;

  private ScanPoints(Layout layout) {
    cell(layout, "scan.errors", Type.UDINT, "errors in expressions since the start");
    time = cell(layout, "scan.time", Type.TIME, "logical time of this scan");
    count = cell(layout, "scan.count", Type.UDINT, "scans before this one");
    first = cell(layout, "scan.first", Type.BOOL, "TRUE in the first scan after a start");
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

  void begin(long[] cells, long nowMicros, long scans) {
    cells[time] = nowMicros;
    cells[count] = scans & 0xFFFF_FFFFL;
    cells[first] = scans == 0 ? 1 : 0;
  }
}
