package bufferstop.scenario;

import bufferstop.model.Scenario;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * How a scenario ended.
 *
 * @param scans performed
 * @param virtualMicros logical time that passed
 * @param wallNanos time it took
 * @param notes what did not happen as planned: a trigger that never fired
 * @param happenings the last things that happened in plants
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
    List<Target.Happening> happenings) {

  /**
   * The expectation with the smallest margin among those with a length or other quantity, if any.
   */
  public Optional<ExpectationResult> smallestMargin() {
    return expectations.stream()
        .filter(e -> e.margin() != null)
        .min(Comparator.comparingDouble(ExpectationResult::margin));
  }
}
