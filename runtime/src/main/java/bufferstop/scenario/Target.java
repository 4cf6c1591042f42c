package bufferstop.scenario;

import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import bufferstop.model.Scope;
import bufferstop.st.Expression;
import java.util.List;

/** What a scenario is run against: a rig in virtual time, for instance. */
public interface Target {
  int HAPPENINGS_KEPT = 10;

  /** The names that can be observed. */
  Scope scope();

  /** The condition behind a name such as {@code hazards.struck_wall}, or null. */
  Expression condition(String name);

  /** Resolves a deed; null after a diagnostic. */
  Prepared prepare(Scenario.Deed deed, Diagnostics problems);

  /** Performs one scan. */
  void scan();

  /** Logical time of the next scan, microseconds. */
  long nextMicros();

  /** Logical time of the last scan, microseconds; negative before the first. */
  long nowMicros();

  /** Scan period, microseconds. */
  long periodMicros();

  /** The image after the last scan; read only. */
  long[] cells();

  /** The last things that happened, oldest first, at most {@link #HAPPENINGS_KEPT}. */
  List<Happening> lastHappenings();

  /** What came of bypasses so far, one for each cause that can be bypassed, in file order. */
  default List<BypassCount> bypasses() {
    return List.of();
  }

  /** What alarms did so far. */
  default AlarmSummary alarms() {
    return AlarmSummary.NONE;
  }

  /** Identity of the run so far, lower-case hex; the run ends with it. */
  String traceSha256();

  /** A deed ready to be done, any number of times, between scans. */
  interface Prepared {

    /** Does it. */
    void begin();

    /**
     * Goes on with it, before each scan from the one in which it began until its end or its next
     * beginning.
     *
     * @param elapsedMicros since its beginning
     */
    default void goOn(long elapsedMicros) {}

    /** How long after its beginning it ends; 0 when it does not end by itself. */
    default long lastsMicros() {
      return 0;
    }

    /** Ends it. */
    default void end() {}
  }

  /**
   * Something that happened: a step, a trip, an alarm, a fault, a write, an event of a plant.
   *
   * @param atMicros logical time of the scan in which it showed
   */
  record Happening(long atMicros, String text) {}
}
