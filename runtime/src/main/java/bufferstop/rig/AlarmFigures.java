package bufferstop.rig;

import bufferstop.scenario.AlarmSummary.Count;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How the alarms of a run behaved, by the figures that ISA-18.2 and IEC 62682 judge alarm systems
 * by [from memory, not re-read; where readings differ, the choice is the reference's]: chattering
 * is three activations or more within a minute, a flood begins with the eleventh alarm within ten
 * minutes and ends when fewer than five came in ten minutes, stale is active for more than a day.
 * They are made for people at their posts; here they judge the design of the alarms.
 */
final class AlarmFigures {
  private static final long MINUTE = 60_000_000L;
  private static final long WINDOW = 10 * MINUTE;
  private static final long DAY = 24 * 60 * MINUTE;
  private static final int CHATTERING = 3;
  private static final int FLOOD_ABOVE = 10;
  private static final int FLOOD_BELOW = 5;

  private final List<String> names;
  private final int[] activations;
  private final long[] activeSince; // -1 while normal
  private final boolean[] chattering;
  private final boolean[] stale;
  private final List<Deque<Long>> lately; // activations of each within a minute
  private final Deque<Long> window = new ArrayDeque<>(); // activations of all within ten
  private boolean flooding;
  private int floods;
  private long floodMicros;
  private long floodSince;

  /**
   * @param names of the alarms, by number
   */
  AlarmFigures(List<String> names) {
    this.names = List.copyOf(names);
    activations = new int[names.size()];
    activeSince = new long[names.size()];
    Arrays.fill(activeSince, -1);
    chattering = new boolean[names.size()];
    stale = new boolean[names.size()];
    lately = names.stream().map(n -> (Deque<Long>) new ArrayDeque<Long>()).toList();
  }

  /** An alarm becomes active. */
  void raised(int alarm, long nowMicros) {
    pass(nowMicros);
    activations[alarm]++;
    activeSince[alarm] = nowMicros;
    Deque<Long> own = lately.get(alarm);
    own.addLast(nowMicros);
    while (nowMicros - own.peekFirst() > MINUTE) {
      own.removeFirst();
    }
    chattering[alarm] |= own.size() >= CHATTERING;
    window.addLast(nowMicros);
    if (!flooding && window.size() > FLOOD_ABOVE) {
      flooding = true;
      floods++;
      floodSince = nowMicros;
    }
  }

  /** An alarm is active no more. */
  void returned(int alarm, long nowMicros) {
    pass(nowMicros);
    stale[alarm] |= isStale(alarm, nowMicros);
    activeSince[alarm] = -1;
  }

  private boolean isStale(int alarm, long nowMicros) {
    return activeSince[alarm] >= 0 && nowMicros - activeSince[alarm] > DAY;
  }

  /** Forgets what is older than the window; a flood may end on the way. */
  private void pass(long nowMicros) {
    while (!window.isEmpty() && nowMicros - window.peekFirst() > WINDOW) {
      long gone = window.removeFirst();
      if (flooding && window.size() < FLOOD_BELOW) {
        flooding = false;
        floodMicros += gone + WINDOW - floodSince;
      }
    }
  }

  /** The figures of the alarms that were active, the most frequent first. */
  List<Count> at(long endMicros) {
    pass(endMicros);
    return IntStream.range(0, names.size())
        .filter(i -> activations[i] > 0)
        .mapToObj(
            i ->
                new Count(
                    names.get(i),
                    activations[i],
                    activeSince[i] >= 0,
                    chattering[i],
                    stale[i] || isStale(i, endMicros)))
        .sorted(Comparator.comparing(f -> -f.activations()))
        .toList();
  }

  /** How many floods began. */
  int floods() {
    return floods;
  }

  /** How long floods lasted altogether, up to a moment. */
  long floodMicros(long endMicros) {
    pass(endMicros);
    return flooding ? floodMicros + endMicros - floodSince : floodMicros;
  }
}
