package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Point;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import java.util.List;
import java.util.Locale;

/**
 * Numbers the outputs.
 *
 * @param names in lower case, by number
 * @param outputs their run-time side
 */
record OutputTable(List<String> names, Outputs outputs) {

  static OutputTable of(Controller controller, Layout layout) {
    List<Point> points = controller.points().stream().filter(p -> p.kind() == Kind.OUTPUT).toList();
    return new OutputTable(
        points.stream().map(p -> p.name().toLowerCase(Locale.ROOT)).toList(),
        new Outputs(
            lockable(points),
            points.stream().mapToInt(p -> index(layout.controller().find(p.name()))).toArray(),
            points.stream().mapToInt(p -> index(layout.field().find(p.name()))).toArray(),
            points.stream().mapToLong(Point::safe).toArray()));
  }

  private static boolean[] lockable(List<Point> points) {
    boolean[] lockable = new boolean[points.size()];
    for (int i = 0; i < lockable.length; i++) {
      lockable[i] = points.get(i).type() == Type.BOOL;
    }
    return lockable;
  }

  private static int index(Symbol symbol) {
    return symbol.index();
  }

  /** Number of an output, or -1. */
  int number(String name) {
    return names.indexOf(name.toLowerCase(Locale.ROOT));
  }
}
