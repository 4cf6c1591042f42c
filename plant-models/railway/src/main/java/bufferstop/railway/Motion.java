package bufferstop.railway;

/**
 * Moves the train through one step, from event to event: between two events every acceleration is
 * constant, so the time at which something stops, meets or ceases to slip follows from a linear or
 * quadratic equation and not from the step.
 */
final class Motion {
  /** Longest stretch taken with one mean motor force, s (project choice). */
  private static final double LONGEST = 0.001;

  /** Far above what any contact sequence needs; beyond it the settings make no sense. */
  private static final int MOST_STRETCHES = 100_000;

  private static final int NOTHING_STOPS = -1;
  private static final int WHEEL_STOPS = -2;
  private static final int SLIP_ENDS = -3;

  private final Train train;
  private final Forces forces;
  private final Contacts contacts;
  private final Uncoupler uncoupler;
  private final EndStop pit;
  private final EndStop shed;
  private double soonest;
  private int stops; // vehicle of the body that stops, or one of the three above

  Motion(
      Train train,
      Forces forces,
      Contacts contacts,
      Uncoupler uncoupler,
      EndStop pit,
      EndStop shed) {
    this.train = train;
    this.forces = forces;
    this.contacts = contacts;
    this.uncoupler = uncoupler;
    this.pit = pit;
    this.shed = shed;
  }

  /** Advances by {@code seconds}. */
  void advance(double seconds) {
    double left = seconds;
    contacts.settle();
    for (int stretch = 0; left > 0; stretch++) {
      if (stretch == MOST_STRETCHES) {
        throw new IllegalStateException("the train's contacts did not settle within one step");
      }
      double longest = Math.min(left, LONGEST);
      forces.resolve(longest);
      uncoupler.act(forces);
      findNext(longest);
      move(soonest);
      contacts.settle();
      left -= soonest;
    }
  }

  private void findNext(double longest) {
    soonest = longest;
    stops = NOTHING_STOPS;
    for (int i = 0; i < train.count; i++) {
      consider(timeToZero(train.v[i], forces.a[i]), i);
    }
    consider(timeToZero(train.wheel, forces.wheelA), WHEEL_STOPS);
    double slip = train.wheel - train.v[train.loco];
    consider(timeToZero(slip, forces.wheelA - forces.a[train.loco]), SLIP_ENDS);
    for (int i = 0; i < train.count - 1; i++) {
      considerContact(i);
    }
    considerEnd(pit, 0, train.low(0));
    considerEnd(shed, train.count - 1, train.high(train.count - 1));
  }

  private void considerContact(int i) {
    if (train.link[i] == Train.APART && !forces.parting(i)) {
      double speed = train.v[i + 1] - train.v[i];
      double acceleration = forces.a[i + 1] - forces.a[i];
      consider(timeToMeet(train.couplerDistance(i), speed, acceleration), NOTHING_STOPS);
    }
  }

  private void considerEnd(EndStop stop, int vehicle, double end) {
    double speed = -train.v[vehicle] * stop.inward;
    double acceleration = -forces.a[vehicle] * stop.inward;
    if (!stop.bears(end)) {
      consider(timeToMeet(stop.toFace(end), speed, acceleration), NOTHING_STOPS);
    } else if (!stop.atWall(end)) {
      consider(timeToMeet(stop.toWall(end), speed, acceleration), NOTHING_STOPS);
    }
  }

  private void consider(double time, int what) {
    if (time < soonest) {
      soonest = time;
      stops = what;
    }
  }

  private void move(double t) {
    int loco = train.loco;
    boolean rolling = train.wheel == train.v[loco] && forces.wheelA == forces.a[loco];
    for (int i = 0; i < train.count; i++) {
      train.x[i] += (train.v[i] + forces.a[i] * t / 2) * t;
      train.v[i] += forces.a[i] * t;
    }
    train.wheel += forces.wheelA * t;
    if (stops >= 0) {
      train.setBodySpeed(stops, 0);
    } else if (stops == WHEEL_STOPS) {
      train.wheel = 0;
    }
    if (rolling || stops == SLIP_ENDS) {
      train.wheel = train.v[loco];
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
}
