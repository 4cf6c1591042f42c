package bufferstop.model;

/**
 * A fault to be set.
 *
 * @param on what it is set on
 * @param mode the word for what is wrong
 * @param value value for {@code stuck}, amount of a plant's fault; null to take the default
 * @param micros delay of {@code delay}, mean time between flips of {@code chatter}; 0 for the
 *     default
 */
public record Fault(Target on, Name mode, SourceText value, long micros) {

  /** What kind of thing a fault is on. */
  public enum Place {
    WIRE,
    SUPPLY,
    NODE,
    PLANT
  }

  /** What a fault is on. */
  public record Target(Place place, Name name) {}
}
