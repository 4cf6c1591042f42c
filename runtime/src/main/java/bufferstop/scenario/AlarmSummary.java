package bufferstop.scenario;

import java.util.List;

/**
 * What alarms did in a run.
 *
 * @param counts of those that came, the most frequent first
 * @param floods how many began
 * @param floodMicros how long they lasted altogether
 * @param events what happened to alarms, in order; the last of them
 * @param eventsLeftOut how many there were before those
 */
public record AlarmSummary(
    List<Count> counts, int floods, long floodMicros, List<Event> events, long eventsLeftOut) {

  /** Of a target that has none. */
  public static final AlarmSummary NONE = new AlarmSummary(List.of(), 0, 0, List.of(), 0);

  /**
   * One alarm.
   *
   * @param activations how often it came
   * @param standing whether it is there at the end
   * @param chattering whether it came three times or more within a minute
   * @param stale whether it was there for more than a day without a break
   */
  public record Count(
      String name, int activations, boolean standing, boolean chattering, boolean stale) {}

  /**
   * Something that happened to an alarm.
   *
   * @param atMicros logical time of the scan
   * @param scan its number, from 0
   * @param what in words: {@code comes}, {@code is acknowledged}
   */
  public record Event(long atMicros, long scan, String alarm, String what) {}
}
