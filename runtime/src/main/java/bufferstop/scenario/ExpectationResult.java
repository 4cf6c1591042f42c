package bufferstop.scenario;

import java.util.List;

/**
 * How one expectation ended.
 *
 * @param text the expectation as written
 * @param margin how far from failing, negative when failed; null when nothing in it has a distance
 * @param unit of the margin
 * @param atMicros moment of the worst case, or of what decided; negative when there was none
 * @param reason why it did not pass, empty when it did
 * @param values names of the failed expression with their values around that moment, a line each
 */
public record ExpectationResult(
    String text,
    Verdict verdict,
    Double margin,
    String unit,
    long atMicros,
    String reason,
    List<String> values) {}
