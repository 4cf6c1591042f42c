package bufferstop.program;

import bufferstop.image.Forces;
import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Point;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import java.util.List;
import java.util.Locale;

/**
 * The outputs, step 6 of the scan: what the program says, then forces, then the safe values of
 * whatever acts on an output, which win and are written back so that nothing seals itself in behind
 * them. A trip also keeps its BOOL outputs safe after its reset until the program itself has let go
 * of them once, so that a reset restarts nothing.
 */
final class Outputs {
  private final List<String> names; // in lower case, by number
  private final List<Symbol> heldBy; // an interlock or trip acts in this scan
  private final List<Symbol> trippedBy; // a trip acts in this scan
  private final boolean[] lockable; // BOOL: a quantity may never meet its safe value by itself
  private final int[] program; // cell the controller sees
  private final int[] given; // cell the field sees
  private final int[] held;
  private final int[] tripped;
  private final int[] locked; // tripped, and not let go since
  private final long[] safe;

  /**
   * Numbers the outputs of a controller and adds their memory.
   *
   * @param layout with the controller's points declared
   */
  Outputs(Controller controller, Layout layout) {
    List<Point> points = controller.points().stream().filter(p -> p.kind() == Kind.OUTPUT).toList();
    names = points.stream().map(p -> p.name().toLowerCase(Locale.ROOT)).toList();
    heldBy = points.stream().map(p -> layout.remember(p.name() + "#held", Type.BOOL)).toList();
    trippedBy =
        points.stream().map(p -> layout.remember(p.name() + "#tripped", Type.BOOL)).toList();
    held = cells(heldBy);
    tripped = cells(trippedBy);
    locked =
        cells(points.stream().map(p -> layout.remember(p.name() + "#locked", Type.BOOL)).toList());
    program = cells(points.stream().map(p -> layout.controller().find(p.name())).toList());
    given = cells(points.stream().map(p -> layout.field().find(p.name())).toList());
    safe = points.stream().mapToLong(Point::safe).toArray();
    lockable = new boolean[points.size()];
    for (int i = 0; i < lockable.length; i++) {
      lockable[i] = points.get(i).type() == Type.BOOL;
    }
  }

  private static int[] cells(List<Symbol> symbols) {
    return symbols.stream().mapToInt(Symbol::index).toArray();
  }

  List<String> names() {
    return names;
  }

  /** Number of an output, or -1. */
  int number(String name) {
    return names.indexOf(name.toLowerCase(Locale.ROOT));
  }

  /** TRUE in a scan in which something holds the output safe. */
  Symbol held(int output) {
    return heldBy.get(output);
  }

  /** TRUE in a scan in which a trip holds the output safe. */
  Symbol tripped(int output) {
    return trippedBy.get(output);
  }

  /** Forgets what acted in the last scan. */
  void beginScan(long[] cells) {
    for (int i = 0; i < held.length; i++) {
      cells[held[i]] = 0;
      cells[tripped[i]] = 0;
    }
  }

  /** Gives every output to the field. */
  void give(long[] cells, Forces forces) {
    for (int i = 0; i < program.length; i++) {
      boolean letGo = cells[program[i]] == safe[i];
      boolean lock = lockable[i] && (cells[tripped[i]] != 0 || cells[locked[i]] != 0 && !letGo);
      cells[locked[i]] = lock ? 1 : 0;
      if (lock || cells[held[i]] != 0) {
        cells[program[i]] = safe[i];
        cells[given[i]] = safe[i];
      } else {
        cells[given[i]] = forces.apply(given[i], cells[program[i]]);
      }
    }
  }

  /** Gives every output its safe value, whatever the program says. */
  void giveSafe(long[] cells) {
    for (int i = 0; i < program.length; i++) {
      cells[program[i]] = safe[i];
      cells[given[i]] = safe[i];
    }
  }
}
