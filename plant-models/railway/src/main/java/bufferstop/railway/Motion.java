package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Moves a row through one step, from event to event: between two events every acceleration is
 * constant, so the time at which something stops, meets or ceases to slip follows from a linear or
 * quadratic equation and not from the step.
 */
final class Motion implements Stateful {
  /** Longest stretch taken with one mean force, s (project choice). */
  private static final double LONGEST = 0.001;

  /** Far above what any contact sequence needs; beyond it the settings make no sense. */
  private static final int MOST_STRETCHES = 100_000;

  /** What ends a stretch. */
  private enum Ends {
    TIME,
    BODY_STOPS,
    WHEEL_STOPS,
    SLIP_ENDS
  }

  private final Stock stock;
  private final Forces forces;
  private final Contacts contacts;
  private final Uncouplers uncouplers;
  private final double strengthNewtons;
  private final Happenings happenings;
  private double soonest;
  private Ends ends;
  private int where; // place of the body or of the wheels that end it
  private int broken;

  Motion(
      LineData line,
      Stock stock,
      Forces forces,
      Contacts contacts,
      Uncouplers uncouplers,
      Happenings happenings) {
    this.stock = stock;
    this.forces = forces;
    this.contacts = contacts;
    this.uncouplers = uncouplers;
    this.happenings = happenings;
    double strength = line.coupling().strengthNewtons();
    strengthNewtons = strength > 0 ? strength : Double.POSITIVE_INFINITY;
  }

  /** How many couplers broke so far. */
  int broken() {
    return broken;
  }

  /** Advances every row by {@code seconds}. */
  void advance(double seconds) {
    for (int row = 0; row < stock.rows; row++) {
      advance(row, seconds);
    }
  }

  private void advance(int row, double seconds) {
    double left = seconds;
    contacts.settle(row);
    for (int stretch = 0; left > 0; stretch++) {
      if (stretch == MOST_STRETCHES) {
        throw new IllegalStateException("the train's contacts did not settle within one step");
      }
      double longest = Math.min(left, LONGEST);
      forces.resolve(row, longest);
      uncouplers.act(row, forces);
      if (breaks(row)) {
        continue; // forces are other ones now
      }
      if (stands(row)) {
        return;
      }
      findNext(row, longest);
      move(row, soonest);
      contacts.settle(row);
      left -= soonest;
    }
  }

  /** Parts the coupler that pulls hardest, if harder than it can. */
  private boolean breaks(int row) {
    int worst = -1;
    double most = strengthNewtons;
    for (int k = stock.first[row]; k < stock.last[row]; k++) {
      if (stock.contact[k] >= Stock.PULL && forces.tension(k) > most) {
        most = forces.tension(k);
        worst = k;
      }
    }
    if (worst < 0) {
      return false;
    }
    stock.coupled[worst] = false;
    stock.contact[worst] = stock.contact[worst] == Stock.RIGID ? Stock.PUSH : Stock.FREE;
    broken++;
    happenings.happened(Happening.DIVIDED, most);
    return true;
  }

  /** Whether nothing in a row moves or begins to, currents included. */
  private boolean stands(int row) {
    for (int k = stock.first[row]; k <= stock.last[row]; k++) {
      Drive drive = forces.driveAt[stock.who[k]];
      if (stock.v[k] != 0 || forces.a[k] != 0 || drive != null && drive.isBusy()) {
        return false;
      }
    }
    return true;
  }

  private void findNext(int row, double longest) {
    soonest = longest;
    ends = Ends.TIME;
    int first = stock.first[row];
    int last = stock.last[row];
    for (int k = first; k <= last; k++) {
      consider(timeToZero(stock.v[k], forces.a[k]), Ends.BODY_STOPS, k);
      Drive drive = forces.driveAt[stock.who[k]];
      if (drive != null) {
        consider(timeToZero(drive.wheel, drive.wheelA), Ends.WHEEL_STOPS, k);
        double slip = drive.wheel - stock.v[k];
        consider(timeToZero(slip, drive.wheelA - forces.a[k]), Ends.SLIP_ENDS, k);
      }
      if (k < last) {
        considerContact(k);
      }
    }
    if (stock.lowStop[row] != null) {
      considerEnd(stock.lowStop[row], stock.lowGap(row), stock.v[first], forces.a[first]);
    }
    if (stock.highStop[row] != null) {
      considerEnd(stock.highStop[row], stock.highGap(row), -stock.v[last], -forces.a[last]);
    }
  }

  private void considerContact(int k) {
    if (stock.contact[k] != Stock.FREE || forces.parting(k) && !stock.coupled[k]) {
      return;
    }
    double distance = stock.couplerDistance(k);
    double speed = stock.v[k + 1] - stock.v[k];
    double acceleration = forces.a[k + 1] - forces.a[k];
    boolean nearBunched = distance <= Forces.CONTACT;
    boolean nearStretched = stock.coupled[k] && stock.slackMetres - distance <= Forces.CONTACT;
    if (!nearBunched || !forces.parting(k)) {
      consider(timeToMeet(distance, speed, acceleration), Ends.TIME, k);
    }
    if (stock.coupled[k] && (!nearStretched || !forces.parting(k))) {
      consider(timeToMeet(stock.slackMetres - distance, -speed, -acceleration), Ends.TIME, k);
    }
  }

  private void considerEnd(EndStop stop, double gap, double speed, double acceleration) {
    if (!stop.bears(gap)) {
      consider(timeToMeet(stop.toFace(gap), speed, acceleration), Ends.TIME, 0);
    } else if (!stop.atWall(gap)) {
      consider(timeToMeet(stop.toNextStage(gap), speed, acceleration), Ends.TIME, 0);
    }
  }

  private void consider(double time, Ends what, int k) {
    if (time < soonest) {
      soonest = time;
      ends = what;
      where = k;
    }
  }

  private void move(int row, double t) {
    for (int k = stock.first[row]; k <= stock.last[row]; k++) {
      double metres = (stock.v[k] + forces.a[k] * t / 2) * t;
      stock.x[k] += metres;
      stock.moved[k] += metres;
      stock.v[k] += forces.a[k] * t;
      Drive drive = forces.driveAt[stock.who[k]];
      if (drive != null) {
        drive.passed(t, drive.wheel + drive.wheelA * t / 2);
        drive.wheel += drive.wheelA * t;
      }
    }
    if (ends == Ends.BODY_STOPS) {
      stock.setBodySpeed(row, where, 0);
    } else if (ends == Ends.WHEEL_STOPS) {
      forces.driveAt[stock.who[where]].wheel = 0;
    }
    for (int k = stock.first[row]; k <= stock.last[row]; k++) {
      Drive drive = forces.driveAt[stock.who[k]];
      if (drive != null && (!drive.slips || ends == Ends.SLIP_ENDS && where == k)) {
        drive.wheel = stock.v[k];
      }
    }
  }

  /** Time until a speed is 0 under an acceleration; infinite when it is 0 or grows. */
  static double timeToZero(double speed, double acceleration) {
    return speed * acceleration < 0 ? -speed / acceleration : Double.POSITIVE_INFINITY;
  }

  /** First time at which d + s t + a t²/2 falls to 0; infinite when it never does. */
  static double timeToMeet(double distance, double speed, double acceleration) {
    if (distance <= 0) {
      return speed < 0 ? 0 : Double.POSITIVE_INFINITY;
    }
    double square = speed * speed - 2 * acceleration * distance;
    boolean closes = speed < 0 || acceleration < 0;
    return closes && square >= 0
        ? 2 * distance / (Math.sqrt(square) - speed)
        : Double.POSITIVE_INFINITY;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeInt(broken);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    broken = from.readInt();
  }
}
