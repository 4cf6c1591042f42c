package bufferstop.spi;

import java.util.List;

/**
 * One simulated plant. One thread calls it; it holds no thread and no clock, and the same settings,
 * seed, inputs and faults give the same outputs bit for bit: only {@link StrictMath} for
 * transcendental functions, no unordered iteration. The order of calls is {@link #start} once, then
 * {@link #step} any number of times, with {@link #fault}, {@link #save} and {@link #picture}
 * between steps; {@link #restore} stands in for {@code start}.
 */
public interface Plant extends Stateful {

  /** Ports the plant reads, in the order of {@code in}; the same list at every call. */
  List<Port> inputs();

  /** Ports the plant drives, in the order of {@code out}; the same list at every call. */
  List<Port> outputs();

  /** Faults of the plant's own (those of wires belong to the host); empty when it has none. */
  default List<PlantFault> faults() {
    return List.of();
  }

  /**
   * Things that can happen in it and are worth a line in the event list; empty when there are none.
   */
  default List<PlantEvent> events() {
    return List.of();
  }

  /**
   * Called once before {@link #start}: where to report the events that {@link #events()} declares.
   *
   * @param sink stays valid for the life of the plant
   */
  default void reportTo(EventSink sink) {}

  /**
   * Gives the values at time zero.
   *
   * @param out one value per declared output; write them all
   */
  void start(double[] out);

  /**
   * Advances the plant by one step; allocates nothing.
   *
   * @param stepMicros step in microseconds, above 0, the same in every call
   * @param in one value per declared input, in that order and unit; BOOL is 0 or 1; do not write
   * @param out one value per declared output, likewise; write them all; NaN stops the run (exit 3)
   */
  void step(long stepMicros, double[] in, double[] out);

  /**
   * Sets or clears a fault; called between steps.
   *
   * @param fault index in {@link #faults()}
   * @param active whether it holds from the next step on
   * @param amount size in the unit the fault declares; 0 where it declares none
   */
  default void fault(int fault, boolean active, double amount) {
    throw new IllegalArgumentException("this plant declares no faults, was asked for " + fault);
  }

  /**
   * A picture of the present state for the report.
   *
   * @return an SVG document with its own size, or an empty string when there is nothing to show
   */
  default String picture() {
    return "";
  }

  /**
   * Pictures for the report: of the present state, and of what led to it.
   *
   * @return {@link #picture()} under an empty name, unless it is empty itself, and whatever else
   *     the plant can show
   */
  default List<PlantPicture> pictures() {
    String present = picture();
    return present.isEmpty() ? List.of() : List.of(new PlantPicture("", present));
  }

  /**
   * Shortest time for which a BOOL output keeps a value that the controller must see, as the
   * settings declare speeds and sizes. The host compares it with what the input at the other end of
   * the wire needs, and {@code check} warns.
   *
   * @param output index in {@link #outputs()}
   * @return seconds, at the terminal; 0 when such a pulse never leaves the plant; infinite when the
   *     settings declare nothing to judge by
   */
  default double shortestPulse(int output) {
    return Double.POSITIVE_INFINITY;
  }
}
