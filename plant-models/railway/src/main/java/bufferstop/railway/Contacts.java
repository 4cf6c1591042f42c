package bufferstop.railway;

import bufferstop.railway.LineData.CouplingData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;

/**
 * What happens where things meet: vehicle and vehicle, vehicle and buffer stop. Momentum of the
 * bodies is kept in every contact of vehicles (reference F5.1), also where a coupler's slack runs
 * out (F5.4). A rotor takes no part in a blow, for the rail's force on the wheels is bounded; its
 * speed is evened out afterwards by slipping. Coupling rule: reference 5.4, project choice.
 */
final class Contacts implements Stateful {
  private final Stock stock;
  private final CouplingData coupling;
  private final Uncouplers uncouplers;
  private final Hazards hazards;
  private final Happenings happenings;
  private boolean willNotCouple;

  Contacts(
      Stock stock,
      CouplingData coupling,
      Uncouplers uncouplers,
      Hazards hazards,
      Happenings happenings) {
    this.stock = stock;
    this.coupling = coupling;
    this.uncouplers = uncouplers;
    this.hazards = hazards;
    this.happenings = happenings;
  }

  /** Fault: couplers meet but do not couple. */
  void refuseCoupling(boolean refused) {
    willNotCouple = refused;
  }

  /** Deals with everything in a row that is in contact and closing. */
  void settle(int row) {
    boolean changed = true;
    while (changed) {
      changed = false;
      int first = stock.first[row];
      int last = stock.last[row];
      if (stock.lowStop[row] != null) {
        changed = meetEnd(row, first, stock.lowStop[row], stock.lowGap(row), -stock.v[first]);
      }
      if (stock.highStop[row] != null) {
        changed |= meetEnd(row, last, stock.highStop[row], stock.highGap(row), stock.v[last]);
      }
      for (int k = first; k < last; k++) {
        changed |= meet(row, k);
      }
    }
  }

  private boolean meetEnd(int row, int k, EndStop stop, double gap, double speed) {
    if (stop.meet(gap, speed)) {
      happenings.happened(Happening.BUFFER_STRUCK, speed);
    }
    if (!stop.strikes(gap, speed)) {
      return false;
    }
    int from = reach(row, k, -1, true);
    int to = reach(row, k, 1, true);
    stop.strike(speed, stock.kg(from, to));
    happenings.happened(Happening.WALL_STRUCK, speed);
    Arrays.fill(stock.v, from, to + 1, 0);
    return true;
  }

  private boolean meet(int row, int k) {
    if (stock.contact[k] != Stock.FREE) {
      return false;
    }
    double closing = stock.v[k] - stock.v[k + 1];
    if (closing == 0) {
      return false;
    }
    double distance = stock.couplerDistance(k);
    if (closing > 0 && distance <= Forces.CONTACT) {
      collide(row, k, closing);
      return true;
    }
    if (closing < 0 && stock.coupled[k] && stock.slackMetres - distance <= Forces.CONTACT) {
      shareSpeed(row, k, 0, false);
      stock.contact[k] = stock.slackMetres <= Forces.CONTACT ? Stock.RIGID : Stock.PULL;
      return true;
    }
    return false;
  }

  /**
   * A blow between places k and k + 1. It reaches as far as contacts pass it on: a push through
   * couplers that are bunched or rigid, a pull through those that are stretched or rigid; where it
   * ends the contact opens.
   */
  private void shareSpeed(int row, int k, double rebound, boolean push) {
    int from = reach(row, k, -1, push);
    int to = reach(row, k + 1, 1, push);
    double kg1 = stock.kg(from, k);
    double kg2 = stock.kg(k + 1, to);
    double closing = stock.v[k] - stock.v[k + 1];
    double common = (kg1 * stock.v[k] + kg2 * stock.v[k + 1]) / (kg1 + kg2);
    double back = rebound * closing / (kg1 + kg2);
    Arrays.fill(stock.v, from, k + 1, common - back * kg2);
    Arrays.fill(stock.v, k + 1, to + 1, common + back * kg1);
  }

  /** The last place in a direction that a blow reaches; opens the contact behind it. */
  private int reach(int row, int k, int direction, boolean push) {
    int place = k;
    while (direction < 0 ? place > stock.first[row] : place < stock.last[row]) {
      int link = direction < 0 ? place - 1 : place;
      int contact = stock.contact[link];
      boolean passes = contact == Stock.RIGID || contact == (push ? Stock.PUSH : Stock.PULL);
      if (!passes) {
        stock.contact[link] = Stock.FREE;
        break;
      }
      place += direction;
    }
    return place;
  }

  private void collide(int row, int k, double speed) {
    boolean held = stock.coupled[k];
    boolean rebounds = !held && speed > coupling.maxSpeed();
    shareSpeed(row, k, rebounds ? coupling.restitution() : 0, true);
    if (rebounds) {
      hazards.collided(stock.who[k], stock.who[k + 1], speed);
      return;
    }
    boolean couples =
        !held
            && speed >= coupling.minSpeed()
            && !willNotCouple
            && !stock.derailed[stock.who[k]]
            && !stock.derailed[stock.who[k + 1]]
            && !uncouplers.holdsOpen(k);
    stock.coupled[k] |= couples;
    boolean rigid = stock.coupled[k] && stock.slackMetres <= Forces.CONTACT;
    stock.contact[k] = rigid ? Stock.RIGID : Stock.PUSH;
    if (couples) {
      happenings.happened(Happening.COUPLED, speed);
    }
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(willNotCouple);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    willNotCouple = from.readBoolean();
  }
}
