package bufferstop.railway;

import bufferstop.testkit.PlantBench;

/** One railway, and what its equations are judged by. */
final class Bench extends PlantBench<RailwayPlant, Bench> {
  final Stock stock;

  Bench(String settings, long stepMicros) {
    this(settings, stepMicros, 1);
  }

  Bench(String settings, long stepMicros, long seed) {
    super(RailwayPlant.class, new RailwayModel(), settings, stepMicros, seed);
    stock = plant.line().stock;
  }

  @Override
  protected Bench self() {
    return this;
  }

  /** Distance post of the middle of the vehicle at a place. */
  double post(int place) {
    Placement placement = plant.line().placement;
    placement.locate(stock.who[place], 0);
    return placement.track.post(placement.foundSegment(), placement.foundOffset());
  }

  /** Gives the body at a place a speed, and the wheels too. */
  Bench push(int place, double speed) {
    stock.setBodySpeed(stock.row(place), place, speed);
    for (Drive drive : plant.line().drives) {
      drive.wheel = stock.v[stock.at[drive.vehicle]];
    }
    return this;
  }

  /** Momentum of bodies and rotors in N s, all in one row. */
  double momentum() {
    double sum = 0;
    for (Drive drive : plant.line().drives) {
      sum += drive.rotorKg() * drive.wheel;
    }
    for (int k = 0; k < stock.count; k++) {
      sum += stock.kg(k) * stock.v[k];
    }
    return sum;
  }

  /** Energy of motion of the bodies alone in J. */
  double bodyJoules() {
    double sum = 0;
    for (int k = 0; k < stock.count; k++) {
      sum += stock.kg(k) * stock.v[k] * stock.v[k] / 2;
    }
    return sum;
  }

  /** Energy of motion in J, that of the rotors included. */
  double joules() {
    double sum = bodyJoules();
    for (Drive drive : plant.line().drives) {
      sum += drive.rotorKg() * drive.wheel * drive.wheel / 2;
    }
    return sum;
  }
}
