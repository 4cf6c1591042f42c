package bufferstop.railway;

import java.util.Map;
import java.util.TreeMap;

/**
 * The shortest pulse that each sensor gives, as sizes and declared speeds have it (reference 6.2):
 * the shortest body, or the gap between bodies, or the reach of a magnet, over the speed declared
 * for its segment, less what the sensor itself loses.
 */
final class Pulses {
  private final Map<String, Double> shortest = new TreeMap<>();

  Pulses(Line line) {
    double body = Double.POSITIVE_INFINITY;
    for (VehicleData vehicle : line.data.vehicles()) {
      body = Math.min(body, vehicle.lengthMetres());
    }
    double shortestBody = body;
    for (Beam beam : line.sensors.beams) {
      double speed = speed(line, beam.data.place().segment());
      put(
          "beam." + beam.data.name(),
          speed,
          beam.shortestSeconds(shortestBody, line.stock.gapMetres(), speed));
    }
    for (Reed reed : line.sensors.reeds) {
      double speed = speed(line, reed.data.place().segment());
      put("reed." + reed.data.name(), speed, reed.shortestSeconds(speed));
    }
    for (Counter counter : line.sensors.counters) {
      String name = "counter." + counter.data.name() + ".pulse";
      put(name, speed(line, counter.data.place().segment()), counter.data.pulseMicros() * 1e-6);
    }
  }

  private static double speed(Line line, int segment) {
    return line.data.track().segments().get(segment).speedLimit();
  }

  private void put(String output, double speed, double seconds) {
    if (speed > 0) {
      shortest.put(output, seconds);
    }
  }

  /** Seconds; infinite where no speed is declared or the output gives no pulses. */
  double shortest(String output) {
    return shortest.getOrDefault(output, Double.POSITIVE_INFINITY);
  }
}
