package bufferstop.model;

/**
 * How a device of the field is asked, as the client of a Modbus server.
 *
 * @param cycleMicros from one round of questions to the next
 * @param answerMicros how long an answer may take; then the connection is closed
 * @param timeoutMicros without a whole round for this long the device counts as lost
 * @param refreshMicros outputs are written when they change, and again after this long
 * @param onLoss what inputs read while the device is lost
 * @param watchdogMicros after which the device itself makes its outputs safe when nobody writes; 0
 *     when it has no such watchdog
 * @param whenQuiet what a simulated plant does when its controller is not heard for {@code
 *     timeoutMicros}
 * @param heartbeat an output that must change within that time, too; null when asking is enough
 */
public record Polling(
    long cycleMicros,
    long answerMicros,
    long timeoutMicros,
    long refreshMicros,
    Field.OnLoss onLoss,
    long watchdogMicros,
    WhenQuiet whenQuiet,
    Name heartbeat) {

  /** What a plant does without its controller. */
  public enum WhenQuiet {
    /** Outputs stay as they were last written. */
    HOLD,
    /** Outputs take their safe values. */
    SAFE,
    /** Time stands still. */
    PAUSE
  }

  /** What is taken for what a project does not say. */
  public static final Polling STANDARD =
      new Polling(20_000, 500_000, 1_000_000, 500_000, Field.OnLoss.SAFE, 0, WhenQuiet.SAFE, null);
}
