package bufferstop.rig;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Alarm;
import bufferstop.model.Controller.Alarm.Command;
import bufferstop.scenario.AlarmSummary;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.function.BiConsumer;

/**
 * Sees in an image from scan to scan what happens to alarms, and keeps their figures. One that is
 * set aside is not shown, so it neither comes nor goes. Allocates only when something happens.
 */
final class AlarmWatch {
  /** Events that are kept, the last ones. */
  private static final int MOST_EVENTS = 1000;

  private static final int ACTIVE = 1;
  private static final int UNACKNOWLEDGED = 2;
  private static final int LATCHED = 4;
  private static final int SHELVED = 8;
  private static final int SUPPRESSED = 16;
  private static final int OUT_OF_SERVICE = 32;
  private static final int SILENT = SHELVED | SUPPRESSED | OUT_OF_SERVICE;

  private final List<Alarm> alarms;
  private final int[][] cells; // of each alarm, one for each bit above, in that order
  private final int[] last;
  private final AlarmFigures figures;
  private final BiConsumer<Long, String> sink;
  private final Deque<AlarmSummary.Event> events = new ArrayDeque<>();
  private long leftOut;

  /**
   * @param sink takes a logical time in microseconds and a line
   */
  AlarmWatch(List<Alarm> alarms, Layout layout, BiConsumer<Long, String> sink) {
    this.alarms = alarms;
    this.sink = sink;
    figures = new AlarmFigures(alarms.stream().map(Alarm::name).toList());
    last = new int[alarms.size()];
    cells = new int[alarms.size()][];
    for (int i = 0; i < cells.length; i++) {
      String name = "alarms." + alarms.get(i).name();
      cells[i] =
          List.of(
                  name + ".active",
                  name + ".unacknowledged",
                  name + ".latched",
                  name + ".shelved",
                  name + ".suppressed",
                  Command.OUT_OF_SERVICE.point(alarms.get(i).name()))
              .stream()
              .mapToInt(point -> layout.field().find(point).index())
              .toArray();
    }
  }

  private int state(int alarm, long[] image) {
    int state = 0;
    for (int bit = 0; bit < cells[alarm].length; bit++) {
      state |= image[cells[alarm][bit]] != 0 ? 1 << bit : 0;
    }
    return state;
  }

  private static boolean isShown(int state) {
    return (state & ACTIVE) != 0 && (state & SILENT) == 0;
  }

  /** Takes an image that tells nothing: before the first scan, and after a restart. */
  void start(long[] image, long nowMicros) {
    for (int i = 0; i < last.length; i++) {
      int now = state(i, image);
      count(i, last[i], now, nowMicros);
      last[i] = now;
    }
  }

  /** Takes the image after a scan. */
  void observe(long[] image, long nowMicros, long scan) {
    for (int i = 0; i < last.length; i++) {
      int now = state(i, image);
      if (now != last[i]) {
        int before = last[i];
        last[i] = now;
        count(i, before, now, nowMicros);
        tell(i, before, now, nowMicros, scan);
      }
    }
  }

  private void count(int alarm, int before, int now, long nowMicros) {
    if (isShown(now) && !isShown(before)) {
      figures.raised(alarm, nowMicros);
    } else if (!isShown(now) && isShown(before)) {
      figures.returned(alarm, nowMicros);
    }
  }

  private void tell(int alarm, int before, int now, long nowMicros, long scan) {
    int came = now & ~before;
    int went = before & ~now;
    List<String> all = new ArrayList<>();
    setAside(came, went, all);
    boolean silent = (now & SILENT) != 0;
    boolean comes = isShown(now) && !isShown(before);
    if (comes) {
      all.add("comes");
    } else if ((went & ACTIVE) != 0 && !silent) {
      all.add((now & LATCHED) != 0 ? "is gone and latched" : "is gone");
    }
    boolean byReturn = !alarms.get(alarm).needsAcknowledge() && (went & ACTIVE) != 0;
    if ((went & UNACKNOWLEDGED) != 0 && !silent && !byReturn) {
      all.add(0, "is acknowledged");
    } else if ((came & UNACKNOWLEDGED) != 0 && !comes) {
      all.add("comes again");
    }
    if ((went & LATCHED) != 0 && !silent && !comes) {
      all.add("is reset");
    }
    all.forEach(what -> tell(alarm, what, nowMicros, scan));
  }

  private static void setAside(int came, int went, List<String> all) {
    if (((came | went) & SHELVED) != 0) {
      all.add((came & SHELVED) != 0 ? "is shelved" : "is shelved no more");
    }
    if (((came | went) & SUPPRESSED) != 0) {
      all.add((came & SUPPRESSED) != 0 ? "is suppressed" : "is suppressed no more");
    }
    if (((came | went) & OUT_OF_SERVICE) != 0) {
      all.add((came & OUT_OF_SERVICE) != 0 ? "is out of service" : "is in service again");
    }
  }

  private void tell(int alarm, String what, long nowMicros, long scan) {
    String name = alarms.get(alarm).name();
    sink.accept(nowMicros, "alarm " + name + (what.equals("comes") ? "" : " " + what));
    events.addLast(new AlarmSummary.Event(nowMicros, scan, name, what));
    if (events.size() > MOST_EVENTS) {
      events.removeFirst();
      leftOut++;
    }
  }

  /** What alarms did up to a moment. */
  AlarmSummary summary(long endMicros) {
    return new AlarmSummary(
        figures.at(endMicros),
        figures.floods(),
        figures.floodMicros(endMicros),
        List.copyOf(events),
        leftOut);
  }
}
