package bufferstop.engine;

import bufferstop.image.Layout;
import bufferstop.image.OperatorWrites;
import bufferstop.image.WriteRequest;
import bufferstop.model.Controller;
import bufferstop.model.Point;
import bufferstop.model.Symbol.Kind;
import java.util.List;

/**
 * Operator points that fall back by themselves: momentary ones after the scan that took the write,
 * hold-to-run ones when they are not written again in time.
 */
public final class OperatorPoints implements OperatorWrites.Taker {
  private final int[] momentary;
  private final int[] held;
  private final long[] holdMicros;
  private final long[] writtenMicros; // by cell
  private long nowMicros;

  /**
   * @param layout with the controller's points declared
   */
  public OperatorPoints(Controller controller, Layout layout, int cells) {
    List<Point> points =
        controller.points().stream().filter(p -> p.kind() == Kind.OPERATOR).toList();
    momentary =
        points.stream()
            .filter(Point::momentary)
            .mapToInt(p -> layout.controller().find(p.name()).index())
            .toArray();
    List<Point> falling = points.stream().filter(p -> p.holdMicros() > 0).toList();
    held = falling.stream().mapToInt(p -> layout.controller().find(p.name()).index()).toArray();
    holdMicros = falling.stream().mapToLong(Point::holdMicros).toArray();
    writtenMicros = new long[cells];
    for (int i = 0; i < held.length; i++) {
      writtenMicros[held[i]] = -holdMicros[i]; // nobody holds it at the start
    }
  }

  /** Before the writes of a scan are taken. */
  void fallBack(long[] cells, long now) {
    nowMicros = now;
    for (int cell : momentary) {
      cells[cell] = 0;
    }
    for (int i = 0; i < held.length; i++) {
      if (now - writtenMicros[held[i]] >= holdMicros[i]) {
        cells[held[i]] = 0;
      }
    }
  }

  @Override
  public void take(long[] cells, WriteRequest request) {
    request.writeTo(cells);
    for (int i = 0; i < request.size(); i++) {
      writtenMicros[request.cell(i)] = nowMicros;
    }
  }
}
