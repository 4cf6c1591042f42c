package bufferstop.scenario;

import bufferstop.model.Scenario;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * How a scenario ended.
 *
 * @param scans performed
 * @param virtualMicros logical time that passed
 * @param wallNanos time it took
 * @param notes what did not happen as planned: a trigger that never fired
 * @param bypasses of every cause that can be bypassed
 * @param alarms what they did
 */
public record ScenarioResult(
    Scenario scenario,
    Verdict verdict,
    long scans,
    long virtualMicros,
    long wallNanos,
    String traceSha256,
    List<ExpectationResult> expectations,
    List<String> notes,
    List<BypassCount> bypasses,
    AlarmSummary alarms) {

  /** For each unit the expectation with the smallest margin, in the order in which units appear. */
  public List<ExpectationResult> smallestMargins() {
    Map<String, ExpectationResult> byUnit = new LinkedHashMap<>();
    for (ExpectationResult expectation : expectations) {
      if (expectation.margin() != null) {
        byUnit.merge(expectation.unit(), expectation, (a, b) -> a.margin() <= b.margin() ? a : b);
      }
    }
    return List.copyOf(byUnit.values());
  }
}
