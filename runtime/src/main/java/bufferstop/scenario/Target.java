package bufferstop.scenario;

import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario;
import bufferstop.model.Scope;
import bufferstop.st.Expression;
import java.util.List;

/** What a scenario is run against: a rig in virtual time, for instance. */
public interface Target {

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

  /** Scan period, microseconds. */
  long periodMicros();

  /** The image after the last scan; read only. */
  long[] cells();

  /** What happened in the plants so far, oldest first. */
  List<Happening> happenings();

  /** What came of bypasses so far, one for each cause that can be bypassed, in file order. */
  default List<BypassCount> bypasses() {
    return List.of();
  }

  /** Identity of the run so far, lower-case hex; the run ends with it. */
  String traceSha256();

  /** Something to do between scans. */
  interface Act {
    void perform();
  }

  /**
   * A deed ready to be done.
   *
   * @param undo what ends it, or null
   * @param undoAfterMicros when, counted from the deed
   */
  record Prepared(Act act, Act undo, long undoAfterMicros) {}

  /**
   * Something that happened in a plant.
   *
   * @param atMicros logical time of the scan in which it showed
   */
  record Happening(long atMicros, String text) {}
}
