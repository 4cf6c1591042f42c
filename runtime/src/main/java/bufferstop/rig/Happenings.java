package bufferstop.rig;

import bufferstop.scenario.Target;
import bufferstop.scenario.Target.Happening;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

/** The last things that happened, in the order in which they did; the rest is forgotten. */
final class Happenings {
  private final Deque<Happening> last = new ArrayDeque<>();

  void add(long atMicros, String text) {
    if (last.size() == Target.HAPPENINGS_KEPT) {
      last.removeFirst();
    }
    last.addLast(new Happening(atMicros, text));
  }

  List<Happening> last() {
    return List.copyOf(last);
  }
}
