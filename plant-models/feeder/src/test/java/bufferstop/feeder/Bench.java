package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.testkit.PlantBench;
import java.util.List;

/** One feeder, its network, and the times of its events. */
final class Bench extends PlantBench<FeederPlant, Bench> {
  final Network network;

  Bench(String settings) {
    this(settings, 1000, 1);
  }

  Bench(String settings, long stepMicros, long seed) {
    super(FeederPlant.class, new FeederModel(), settings, stepMicros, seed);
    network = plant.network();
  }

  @Override
  protected Bench self() {
    return this;
  }

  /** Time of the n-th event of a name, counted from 1. */
  double at(String event, int n) {
    List<Event> all = events.stream().filter(e -> e.name().equals(event)).toList();
    assertTrue(all.size() >= n, () -> event + " came " + all.size() + " times: " + events);
    return all.get(n - 1).seconds();
  }

  long count(String event) {
    return events.stream().filter(e -> e.name().equals(event)).count();
  }
}
