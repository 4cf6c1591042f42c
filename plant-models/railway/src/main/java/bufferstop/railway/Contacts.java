package bufferstop.railway;

import bufferstop.railway.LineData.CouplingData;

/**
 * What happens where things meet: vehicle and vehicle, vehicle and buffer stop. Momentum of the
 * bodies is kept in every contact of vehicles (reference F5.1). A rotor takes no part in a blow,
 * for the rail's force on the wheels is bounded; its speed is evened out afterwards by slipping.
 * Coupling rule: reference 5.4, project choice.
 */
final class Contacts {
  private final Train train;
  private final EndStop pit;
  private final EndStop shed;
  private final CouplingData coupling;
  private final Uncoupler uncoupler;
  private final Happenings happenings;
  private boolean willNotCouple;

  Contacts(
      Train train,
      EndStop pit,
      EndStop shed,
      CouplingData coupling,
      Uncoupler uncoupler,
      Happenings happenings) {
    this.train = train;
    this.pit = pit;
    this.shed = shed;
    this.coupling = coupling;
    this.uncoupler = uncoupler;
    this.happenings = happenings;
  }

  /** Fault: couplers meet but do not couple. */
  void refuseCoupling(boolean refused) {
    willNotCouple = refused;
  }

  boolean refusesCoupling() {
    return willNotCouple;
  }

  /** Deals with everything that is in contact and closing. */
  void settle() {
    boolean changed = true;
    while (changed) {
      changed = meetEnd(pit, 0, train.low(0));
      changed |= meetEnd(shed, train.count - 1, train.high(train.count - 1));
      for (int i = 0; i < train.count - 1; i++) {
        if (closing(i) > 0 && train.couplerDistance(i) <= Forces.CONTACT) {
          collide(i);
          changed = true;
        }
      }
    }
  }

  private double closing(int i) {
    return train.v[i] - train.v[i + 1];
  }

  private boolean meetEnd(EndStop stop, int vehicle, double end) {
    double speed = train.v[vehicle];
    if (stop.meet(end, speed)) {
      happenings.bufferStruck(Math.abs(speed));
    }
    if (!stop.strikes(end, speed)) {
      return false;
    }
    stop.strike(speed, train.massKg(train.firstOfBody(vehicle), train.lastOfBody(vehicle)));
    happenings.wallStruck(Math.abs(speed));
    train.setBodySpeed(vehicle, 0);
    return true;
  }

  private void collide(int i) {
    double speed = closing(i);
    double kg1 = train.massKg(train.firstOfBody(i), i);
    double kg2 = train.massKg(i + 1, train.lastOfBody(i + 1));
    double common = (kg1 * train.v[i] + kg2 * train.v[i + 1]) / (kg1 + kg2);
    boolean rebounds = speed > coupling.maxSpeed();
    double back = rebounds ? coupling.restitution() * speed / (kg1 + kg2) : 0;
    train.setBodySpeed(i, common - back * kg2);
    train.setBodySpeed(i + 1, common + back * kg1);
    if (rebounds) {
      return;
    }
    boolean couples = speed >= coupling.minSpeed() && !willNotCouple && !uncoupler.holdsOpen(i);
    train.link[i] = couples ? Train.COUPLED : Train.TOUCHING;
    if (couples) {
      happenings.coupled(speed);
    }
  }
}
