package bufferstop.spi;

/**
 * One signal of a plant.
 *
 * @param name dotted path below the plant's name, lower case: {@code shed_end.impact_speed}
 * @param bool whether the value is 0 or 1 and reads as BOOL; otherwise it reads as LREAL
 * @param unit SI unit as printed ({@code m/s}), empty for BOOL and for pure numbers
 * @param text one line for the I/O list
 * @param unwired for an input, the value when no wire leads to it; NaN when a wire is required; for
 *     an output always NaN
 */
public record Port(String name, boolean bool, String unit, String text, double unwired) {

  /** A BOOL output. */
  public static Port contact(String name, String text) {
    return new Port(name, true, "", text, Double.NaN);
  }

  /** A numeric output in an SI unit. */
  public static Port quantity(String name, String unit, String text) {
    return new Port(name, false, unit, text, Double.NaN);
  }

  /** The same port as an input that may stay unwired and then holds {@code value}. */
  public Port orElse(double value) {
    return new Port(name, bool, unit, text, value);
  }
}
