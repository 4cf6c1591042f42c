package bufferstop.testkit;

import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import java.util.ArrayList;
import java.util.List;

/**
 * One plant driven by the names of its ports, started when it is made. An author extends it with
 * what tests of that plant look at.
 *
 * @param <P> the plant
 * @param <B> the bench itself, which its methods return
 */
public abstract class PlantBench<P extends Plant, B extends PlantBench<P, B>> {
  private static final double LONGEST_WAIT = 400; // seconds

  /**
   * An event.
   *
   * @param seconds since the start, at the end of its step
   */
  public record Event(double seconds, String name, double value) {}

  /** The plant under test. */
  public final P plant;

  /** What has happened, in order. */
  public final List<Event> events = new ArrayList<>();

  private final List<String> inputs;
  private final List<String> outputs;
  private final List<String> faults;
  private final double[] in;
  private final double[] out;
  private final long stepMicros;
  private long steps;

  /**
   * Opens and starts a plant; inputs hold their unwired values, or 0.
   *
   * @param settings as {@link SettingsText} reads them; they open without a problem
   */
  protected PlantBench(
      Class<P> kind, PlantModel model, String settings, long stepMicros, long seed) {
    this.stepMicros = stepMicros;
    plant = kind.cast(Opened.of(model, settings, seed).plant());
    inputs = plant.inputs().stream().map(Port::name).toList();
    outputs = plant.outputs().stream().map(Port::name).toList();
    faults = plant.faults().stream().map(PlantFault::name).toList();
    in =
        plant.inputs().stream()
            .mapToDouble(Port::unwired)
            .map(unwired -> Double.isNaN(unwired) ? 0 : unwired)
            .toArray();
    out = new double[outputs.size()];
    List<String> names = plant.events().stream().map(PlantEvent::name).toList();
    plant.reportTo((event, value) -> events.add(new Event(now(), names.get(event), value)));
    plant.start(out);
  }

  /** This bench. */
  protected abstract B self();

  private static int find(List<String> names, String name) {
    int at = names.indexOf(name);
    assertTrue(at >= 0, () -> "`" + name + "` is none of " + names);
    return at;
  }

  /** Seconds since the start; within a step its end. */
  public double now() {
    return steps * stepMicros * 1e-6;
  }

  /** Sets an input from the next step on. */
  public B set(String input, double value) {
    in[find(inputs, input)] = value;
    return self();
  }

  /** Sets or clears a fault without an amount. */
  public B fault(String name, boolean active) {
    return fault(name, active, 0);
  }

  /** Sets or clears a fault. */
  public B fault(String name, boolean active, double amount) {
    plant.fault(find(faults, name), active, amount);
    return self();
  }

  /** Value of an output after the last step. */
  public double get(String output) {
    return out[find(outputs, output)];
  }

  /** Takes one step. */
  public B step() {
    steps++;
    plant.step(stepMicros, in, out);
    return self();
  }

  /** Takes as many steps as make up a time. */
  public B run(double seconds) {
    long count = Math.round(seconds * 1e6 / stepMicros);
    for (long i = 0; i < count; i++) {
      step();
    }
    return self();
  }

  /** Steps until an output has a value; returns the seconds that took. */
  public double until(String output, double value) {
    for (long i = 1; i * stepMicros < LONGEST_WAIT * 1e6; i++) {
      step();
      if (get(output) == value) {
        return i * stepMicros * 1e-6;
      }
    }
    throw new AssertionError(
        "%s was not %s within %s s: %s".formatted(output, value, LONGEST_WAIT, events));
  }

  /** Names of the events so far, in order. */
  public List<String> happened() {
    return events.stream().map(Event::name).toList();
  }
}
