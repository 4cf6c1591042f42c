package bufferstop.report;

import bufferstop.model.Values;
import bufferstop.scenario.AlarmSummary;
import java.util.ArrayList;
import java.util.List;

/** Figures of alarms for people. */
public final class AlarmText {
  private static final int SHOWN = 20; // events on the console

  private AlarmText() {}

  /** A line for each alarm that came, the most frequent first; nothing when none did. */
  public static String summary(AlarmSummary alarms) {
    StringBuilder out = new StringBuilder();
    for (AlarmSummary.Count count : alarms.counts()) {
      int times = count.activations();
      out.append("alarm ").append(count.name()).append(": ");
      out.append(times == 1 ? "once" : times + " times");
      marks(count).forEach(mark -> out.append(", ").append(mark));
      out.append('\n');
    }
    return out.append(floods(alarms)).toString();
  }

  /** The same, then what happened last; one line when nothing did. */
  public static String journal(AlarmSummary alarms) {
    List<AlarmSummary.Event> events = alarms.events();
    if (events.isEmpty()) {
      return "no alarm so far";
    }
    StringBuilder out = new StringBuilder(summary(alarms));
    for (AlarmSummary.Event event :
        events.subList(Math.max(0, events.size() - SHOWN), events.size())) {
      out.append("  ").append(Values.time(event.atMicros())).append("  scan ");
      out.append(event.scan()).append("  ").append(event.alarm()).append(' ');
      out.append(event.what()).append('\n');
    }
    return out.toString().stripTrailing();
  }

  /** Only what judges the design of the alarms: chattering, stale, floods. */
  public static String faults(AlarmSummary alarms) {
    StringBuilder out = new StringBuilder();
    for (AlarmSummary.Count count : alarms.counts()) {
      if (count.chattering() || count.stale()) {
        out.append("  alarm ").append(count.name());
        out.append(" came ").append(count.activations()).append(" times");
        marks(count).forEach(mark -> out.append(", ").append(mark));
        out.append('\n');
      }
    }
    String floods = floods(alarms);
    return out.append(floods.isEmpty() ? "" : "  " + floods).toString();
  }

  private static List<String> marks(AlarmSummary.Count count) {
    List<String> marks = new ArrayList<>();
    if (count.standing()) {
      marks.add("standing");
    }
    if (count.chattering()) {
      marks.add("chattering (3 or more in a minute)");
    }
    if (count.stale()) {
      marks.add("stale (longer than a day)");
    }
    return marks;
  }

  private static String floods(AlarmSummary alarms) {
    return alarms.floods() == 0
        ? ""
        : "alarm floods (more than 10 in 10 minutes): "
            + alarms.floods()
            + ", "
            + Values.time(alarms.floodMicros())
            + " in all\n";
  }
}
