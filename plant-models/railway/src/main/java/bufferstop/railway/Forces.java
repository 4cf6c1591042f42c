package bufferstop.railway;

import java.util.Arrays;

/**
 * Accelerations of every body and the forces through the couplers, for one stretch of time in which
 * nothing begins, ends or meets. Friction is Coulomb friction with true standstill. The driven
 * wheels roll while the rail can give the force that needs, else they slip and the rail gives what
 * adhesion allows (reference F3.7). The motor's force falls with speed; its mean over the stretch
 * is taken at mid-stretch (implicit midpoint rule), second order in the stretch.
 */
final class Forces {
  /** A coupler that pulls with no more than this counts as slack, N. */
  static final double SLACK = 1e-6;

  /** Couplers no further apart than this are in contact, m. */
  static final double CONTACT = 1e-12;

  final double[] a;

  /** Acceleration of the wheel rim, m/s². */
  double wheelA;

  private final Train train;
  private final Traction traction;
  private final EndStop pit;
  private final EndStop shed;
  private final double frictionNewtons;
  private final double rotorKg;
  private final double adhesionNewtons;
  private final double[] push; // through coupler i: above 0 bunched, below 0 in tension
  private final boolean[] parting; // touching until this stretch, now pulled apart
  private double adhesionShare = 1;

  // The body at hand.
  private double rolling;
  private double kg;
  private double lowEnd;
  private double highEnd;
  private double rail; // force of the rail on the driven wheels
  private double share; // friction acting, as a share of its limit, with its sign
  private double wall; // reaction of a wall

  Forces(LineData line, Train train, Traction traction, EndStop pit, EndStop shed) {
    this.train = train;
    this.traction = traction;
    this.pit = pit;
    this.shed = shed;
    Motor motor = line.loco().motor();
    frictionNewtons = motor.frictionNewtons();
    rotorKg = motor.addedKg();
    adhesionNewtons =
        line.loco().adhesion()
            * line.loco().drivenShare()
            * train.massKg(train.loco)
            * Train.GRAVITY;
    a = new double[train.count];
    push = new double[train.count - 1];
    parting = new boolean[train.count - 1];
  }

  /** Fault: only this share of the adhesion is left. */
  void setAdhesionShare(double share) {
    adhesionShare = share;
  }

  double adhesionShare() {
    return adhesionShare;
  }

  /** Whether coupler i is in tension, by the force through it in the last stretch. */
  boolean inTension(int i) {
    return push[i] < -SLACK;
  }

  boolean parting(int i) {
    return parting[i];
  }

  /** Works out all accelerations for a stretch of {@code h} seconds. */
  void resolve(double h) {
    Arrays.fill(parting, false);
    for (int i = 0; i < parting.length; i++) {
      if (train.link[i] == Train.APART
          && train.v[i] == train.v[i + 1]
          && train.couplerDistance(i) <= CONTACT) {
        train.link[i] = Train.TOUCHING;
      }
    }
    boolean changed = true;
    while (changed) {
      changed = resolveBodies(h);
    }
  }

  private boolean resolveBodies(double h) {
    boolean changed = false;
    for (int from = 0; from < train.count; ) {
      int to = train.lastOfBody(from);
      double acceleration = body(from, to, h);
      Arrays.fill(a, from, to + 1, acceleration);
      changed |= couplers(from, to, acceleration);
      if (to < push.length) {
        push[to] = 0;
      }
      from = to + 1;
    }
    return changed;
  }

  private double body(int from, int to, double h) {
    kg = train.massKg(from, to);
    rolling = train.rollingNewtons(from, to);
    lowEnd = from == 0 ? train.low(0) : Double.POSITIVE_INFINITY;
    highEnd = to == train.count - 1 ? train.high(to) : Double.NEGATIVE_INFINITY;
    rail = 0;
    boolean driven = from <= train.loco && train.loco <= to;
    return driven ? driven(train.v[from], h) : pushed(train.v[from], 0);
  }

  /** Greatest force in N against motion in direction {@code d}; infinite against a wall. */
  private double resistance(double d) {
    if (d < 0) {
      return rolling + stop(pit, lowEnd);
    }
    return d > 0 ? rolling + stop(shed, highEnd) : rolling;
  }

  private static double stop(EndStop stop, double end) {
    if (stop.atWall(end)) {
      return Double.POSITIVE_INFINITY;
    }
    return stop.bears(end) ? stop.newtons : 0;
  }

  /** Acceleration of the body under a force from its wheels. */
  private double pushed(double v, double newtons) {
    double d = v != 0 ? Math.signum(v) : Math.signum(newtons);
    double limit = resistance(d);
    if (v == 0 && Math.abs(newtons) <= limit) {
      hold(newtons, limit);
      return 0;
    }
    share = -d;
    wall = 0;
    return (newtons - d * limit) / kg;
  }

  /** Standstill: friction takes the force, each vehicle the same share of its limit. */
  private void hold(double newtons, double limit) {
    boolean rigid = limit == Double.POSITIVE_INFINITY;
    wall = rigid ? -newtons : 0;
    share = rigid || limit == 0 ? 0 : -newtons / limit;
  }

  private double driven(double v, double h) {
    if (train.wheel != v) {
      return slipping(v, Math.signum(train.wheel - v), h);
    }
    double rolled = rolling(v, h);
    if (Math.abs(rail) <= adhesion()) {
      return rolled;
    }
    return slipping(v, Math.signum(rail), h);
  }

  private double adhesion() {
    return adhesionNewtons * adhesionShare;
  }

  /** Wheels roll: rotor and body move as one. */
  private double rolling(double v, double h) {
    double newtons = traction.standingNewtons(v) - traction.newtonsPerSpeed(v) * v;
    double d = v != 0 ? Math.signum(v) : Math.signum(newtons);
    double limit = resistance(d);
    if (v == 0 && Math.abs(newtons) <= frictionNewtons + limit) {
      rail = d * Math.max(0, Math.abs(newtons) - frictionNewtons);
      hold(rail, limit);
      wheelA = 0;
      return 0;
    }
    share = -d;
    wall = 0;
    wheelA =
        (newtons - d * (frictionNewtons + limit))
            / (kg + rotorKg + traction.newtonsPerSpeed(v) * h / 2);
    rail = kg * wheelA + d * limit;
    return wheelA;
  }

  /** Wheels slip: the rail gives what adhesion allows, rotor and body move each by itself. */
  private double slipping(double v, double sense, double h) {
    double w = train.wheel;
    rail = sense * adhesion();
    double newtons = traction.standingNewtons(w) - traction.newtonsPerSpeed(w) * w - rail;
    double d = w != 0 ? Math.signum(w) : Math.signum(newtons);
    boolean held = w == 0 && Math.abs(newtons) <= frictionNewtons;
    wheelA =
        held
            ? 0
            : (newtons - d * frictionNewtons) / (rotorKg + traction.newtonsPerSpeed(w) * h / 2);
    return pushed(v, rail);
  }

  /** Forces through the body's couplers; parts those that merely touch and would pull. */
  private boolean couplers(int from, int to, double acceleration) {
    boolean parted = false;
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += outside(i, from) - train.massKg(i) * acceleration;
      push[i] = sum;
      if (train.link[i] == Train.TOUCHING && inTension(i)) {
        train.link[i] = Train.APART;
        parting[i] = true;
        parted = true;
      }
    }
    return parted;
  }

  /** Force in N on vehicle i from outside the body; the last vehicle is never asked for. */
  private double outside(int i, int from) {
    double newtons = share * train.rollingNewtons(i);
    if (i == train.loco) {
      newtons += rail;
    }
    if (i == from && share > 0 && stop(pit, lowEnd) > 0) {
      newtons += share * pit.newtons;
    }
    return i == from && wall > 0 ? newtons + wall : newtons;
  }
}
