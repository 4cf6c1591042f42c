package bufferstop.railway;

import bufferstop.railway.VehicleData.DriverData;

/**
 * Somebody who drives a locomotive: keeps to the lowest of their own speed, the limits under and
 * ahead of the train, and what lets them stop before a signal at danger they can see, all by the
 * retardation they reckon with: v = √(u² + 2 b d) [derived].
 */
final class Driver {
  private static final double BAND = 0.3; // m/s from no handle to full, project choice

  private final int vehicle;
  private final DriverData data;
  private final Stock stock;
  private final Signals signals;

  Driver(int vehicle, DriverData data, Stock stock, Signals signals) {
    this.vehicle = vehicle;
    this.data = data;
    this.stock = stock;
    this.signals = signals;
  }

  /** Sets handle and brake for the coming step. */
  void drive(EffortDrive drive, Brakes brakes, boolean go, boolean backwards) {
    double speed = stock.speed(vehicle) * (backwards ? -1 : 1);
    double target = go ? allowed(backwards, Math.max(0, speed)) : 0;
    double lack = target - speed;
    drive.command(target > 0 ? lack / BAND : 0, backwards);
    brakes.ask(vehicle, target > 0 ? -lack / BAND : 1);
  }

  private double allowed(boolean backwards, double speed) {
    Placement placement = stock.placement;
    Track track = placement.track;
    int way = backwards ? placement.way(vehicle, 0) ^ 1 : placement.frontWay(vehicle);
    double from =
        backwards
            ? track.length(way) - placement.rearAlong(vehicle)
            : placement.frontAlong(vehicle);
    double best = Math.min(data.speed(), limit(Track.segment(way)));
    double range = speed * speed / (2 * data.braking()) + data.marginMetres() + speed + 1;
    double travelled = 0;
    while (way != Track.NO_WAY && travelled <= range) {
      double danger = signals.toDanger(way, from, travelled);
      if (danger != Double.POSITIVE_INFINITY) {
        return Math.min(best, towards(0, danger - data.marginMetres()));
      }
      travelled += track.length(way) - from;
      from = 0;
      way = track.next(way);
      if (way != Track.NO_WAY) {
        best = Math.min(best, towards(limit(Track.segment(way)), travelled));
      }
    }
    return best;
  }

  private double limit(int segment) {
    double limit = stock.placement.track.data.segments().get(segment).speedLimit();
    return limit > 0 ? limit : Double.POSITIVE_INFINITY;
  }

  private double towards(double then, double metres) {
    return metres <= 0 ? then : Math.sqrt(then * then + 2 * data.braking() * metres);
  }
}
