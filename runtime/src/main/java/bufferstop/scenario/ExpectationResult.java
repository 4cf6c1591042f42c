package bufferstop.scenario;

import java.util.List;

/**
 * How one expectation ended.
 *
 * @param text the expectation as written
 * @param margin how far from failing, negative when failed; null when nothing in it has a distance
 * @param reason why it did not pass, empty when it did
 * @param atMicros moment of the worst case, or of what decided; negative when there was none
 * @param others further margins, each in a unit of its own or of another kind
 * @param values parts and names of the failed expression with their values around that moment, a
 *     line each
 * @param before what happened last before it failed, oldest first
 */
public record ExpectationResult(
    String text,
    Verdict verdict,
    Double margin,
    String unit,
    long atMicros,
    String reason,
    List<Margin> others,
    List<String> values,
    List<Target.Happening> before) {

  /**
   * A distance from failing.
   *
   * @param value negative when failed
   * @param unit of the value; may be empty
   * @param atMicros moment of the worst case
   */
  public record Margin(double value, String unit, long atMicros) {}

  /**
   * A result whose first margin is the one that is shown.
   *
   * @param margins none when nothing has a distance
   * @param atMicros what is told where there is no margin
   */
  static ExpectationResult of(
      String text, Verdict verdict, List<Margin> margins, long atMicros, String reason) {
    boolean none = margins.isEmpty();
    Margin first = none ? null : margins.get(0);
    return new ExpectationResult(
        text,
        verdict,
        none ? null : first.value(),
        none ? "" : first.unit(),
        none ? atMicros : first.atMicros(),
        reason,
        none ? List.of() : List.copyOf(margins.subList(1, margins.size())),
        List.of(),
        List.of());
  }

  /** One that could not be judged. */
  static ExpectationResult open(String text, String reason) {
    return of(text, Verdict.INCONCLUSIVE, List.of(), -1, reason);
  }

  ExpectationResult withValues(List<String> lines) {
    return new ExpectationResult(
        text, verdict, margin, unit, atMicros, reason, others, lines, before);
  }

  ExpectationResult withBefore(List<Target.Happening> happenings) {
    return new ExpectationResult(
        text, verdict, margin, unit, atMicros, reason, others, values, happenings);
  }
}
