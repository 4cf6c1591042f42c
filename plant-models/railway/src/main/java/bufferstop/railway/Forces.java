package bufferstop.railway;

import java.util.Arrays;
import java.util.List;

/**
 * Accelerations of every body of one row and the forces through its couplers, for one stretch of
 * time in which nothing begins, ends or meets. Friction is Coulomb friction with true standstill.
 * Driven wheels roll while the rail can give the force that needs, else they slip and the rail
 * gives what adhesion allows (reference F3.7). What changes with speed is taken at its mean over
 * the stretch (implicit midpoint rule), second order in the stretch.
 */
final class Forces {
  /** A coupler that pulls with no more than this counts as slack, N. */
  static final double SLACK = 1e-6;

  /** Nearer than this couplers are in contact, m. */
  static final double CONTACT = EndStop.CONTACT;

  final double[] a; // by place
  final Drive[] driveAt; // by vehicle, null for wagons
  private final Stock stock;
  private final Resistance resistance;
  private final double[] push; // through the coupler after a place: below 0 in tension
  private final boolean[] parting; // in contact until this stretch, now coming apart

  // The row and the body at hand.
  private int row;
  private int from;
  private int to;
  private double v;
  private double h;
  private double external; // gravity less drag
  private double frictionSum;
  private double mass;
  private double dragSlope;
  private double share; // friction acting, as a share of its limit, with its sign
  private double wall; // reaction of a wall

  Forces(Stock stock, Resistance resistance, List<? extends Drive> drives) {
    this.stock = stock;
    this.resistance = resistance;
    a = new double[stock.count];
    push = new double[stock.count];
    parting = new boolean[stock.count];
    driveAt = new Drive[stock.count];
    drives.forEach(d -> driveAt[d.vehicle] = d);
  }

  /** Whether the coupler after a place is in tension, by the force through it in this stretch. */
  boolean inTension(int k) {
    return push[k] < -SLACK;
  }

  /** Tension in that coupler, N. */
  double tension(int k) {
    return -push[k];
  }

  boolean parting(int k) {
    return parting[k];
  }

  /** Works out all accelerations of a row for a stretch of {@code h} seconds. */
  void resolve(int row, double h) {
    this.row = row;
    this.h = h;
    int last = stock.last[row];
    Arrays.fill(parting, stock.first[row], last + 1, false);
    for (int k = stock.first[row]; k < last; k++) {
      meetAtRest(k);
    }
    boolean changed = true;
    while (changed) {
      changed = false;
      for (from = stock.first[row]; from <= last; from = to + 1) {
        to = stock.lastOfBody(row, from);
        body();
        changed |= couplers();
      }
    }
  }

  private void meetAtRest(int k) {
    if (stock.contact[k] == Stock.FREE && stock.v[k] == stock.v[k + 1]) {
      double distance = stock.couplerDistance(k);
      if (distance <= CONTACT) {
        boolean rigid = stock.coupled[k] && stock.slackMetres <= CONTACT;
        stock.contact[k] = rigid ? Stock.RIGID : Stock.PUSH;
      } else if (stock.coupled[k] && stock.slackMetres - distance <= CONTACT) {
        stock.contact[k] = Stock.PULL;
      }
    }
  }

  private Drive drive(int k) {
    return driveAt[stock.who[k]];
  }

  private void body() {
    v = stock.v[from];
    external = 0;
    frictionSum = 0;
    mass = 0;
    dragSlope = 0;
    for (int k = from; k <= to; k++) {
      mass += resistance.kg[k];
      frictionSum += resistance.friction[k];
      external += resistance.gravity(k, stock.moved[k] + v * h / 2) - resistance.drag(k, v);
      dragSlope += resistance.dragSlope(k, v);
      Drive drive = drive(k);
      if (drive != null) {
        drive.expect(h);
        drive.slips = drive.wheel != v;
        drive.sense = Math.signum(drive.wheel - v);
      }
    }
    double acceleration = solve();
    while (beginsToSlip()) {
      acceleration = solve();
    }
    Arrays.fill(a, from, to + 1, acceleration);
  }

  /**
   * Marks a rolling drive that asks more of the rail than it can give; returns whether any does.
   */
  private boolean beginsToSlip() {
    boolean any = false;
    for (int k = from; k <= to; k++) {
      Drive drive = drive(k);
      if (drive != null && !drive.slips && Math.abs(drive.rail) > drive.adhesionNewtons) {
        drive.slips = true;
        drive.sense = Math.signum(drive.rail);
        any = true;
      }
    }
    return any;
  }

  private double solve() {
    double outer = external;
    for (int k = from; k <= to; k++) {
      Drive drive = drive(k);
      if (drive != null && drive.slips) {
        slip(drive);
        outer += drive.rail;
      }
    }
    return v == 0 ? standing(outer) : moving(outer, Math.signum(v));
  }

  /** Wheels slip: the rail gives what adhesion allows, the rotor moves by itself. */
  private void slip(Drive drive) {
    double w = drive.wheel;
    drive.rail = drive.sense * drive.adhesionNewtons;
    double newtons = drive.newtons(w) - drive.rail;
    double d = w != 0 ? Math.signum(w) : Math.signum(newtons);
    boolean held = w == 0 && Math.abs(newtons) <= drive.frictionNewtons();
    drive.wheelA =
        held
            ? 0
            : (newtons - d * drive.frictionNewtons()) / (drive.rotorKg() + drive.slope(w) * h / 2);
  }

  /** Greatest force in N against motion in direction {@code d}; infinite against a wall. */
  private double limit(double d) {
    double newtons = frictionSum;
    if (d < 0 && from == stock.first[row]) {
      newtons += stop(stock.lowStop[row], stock.lowStop[row] == null ? 0 : stock.lowGap(row));
    } else if (d > 0 && to == stock.last[row]) {
      newtons += stop(stock.highStop[row], stock.highStop[row] == null ? 0 : stock.highGap(row));
    }
    return newtons;
  }

  private static double stop(EndStop stop, double gap) {
    if (stop == null || !stop.bears(gap)) {
      return 0;
    }
    return stop.atWall(gap) ? Double.POSITIVE_INFINITY : stop.newtons();
  }

  private double moving(double outer, double d) {
    double net = outer - d * limit(d);
    double inertia = mass + dragSlope * h / 2;
    for (int k = from; k <= to; k++) {
      Drive drive = drive(k);
      if (drive != null && !drive.slips) {
        net += drive.newtons(v) - d * drive.frictionNewtons();
        inertia += drive.rotorKg() + drive.slope(v) * h / 2;
      }
    }
    share = -d;
    wall = 0;
    double acceleration = net / inertia;
    for (int k = from; k <= to; k++) {
      Drive drive = drive(k);
      if (drive != null && !drive.slips) {
        drive.wheelA = acceleration;
        drive.rail =
            drive.newtons(v)
                - drive.slope(v) * acceleration * h / 2
                - d * drive.frictionNewtons()
                - drive.rotorKg() * acceleration;
      }
    }
    return acceleration;
  }

  /** At rest: the motors' own friction takes what it can, then all friction alike. */
  private double standing(double outer) {
    double ext = outer;
    double spare = 0;
    for (int k = from; k <= to; k++) {
      Drive drive = drive(k);
      if (drive != null && !drive.slips) {
        double n = drive.newtons(0);
        drive.rail = Math.signum(n) * Math.max(0, Math.abs(n) - drive.frictionNewtons());
        ext += drive.rail;
        spare += Math.max(0, drive.frictionNewtons() - Math.abs(n));
      }
    }
    double d = Math.signum(ext);
    double most = limit(d) + spare;
    if (Math.abs(ext) > most) {
      double acceleration = moving(outer, d);
      if (acceleration * d > 0) {
        return acceleration;
      }
    }
    hold(ext, most);
    return 0;
  }

  private void hold(double ext, double most) {
    boolean rigid = most == Double.POSITIVE_INFINITY;
    wall = rigid ? -ext : 0;
    share = rigid || most == 0 ? 0 : -ext / most;
    for (int k = from; k <= to; k++) {
      Drive drive = drive(k);
      if (drive != null && !drive.slips) {
        double n = drive.newtons(0);
        double own = drive.frictionNewtons() - Math.abs(n);
        drive.rail = Math.signum(n) * Math.max(0, -own) + share * Math.max(0, own);
        drive.wheelA = 0;
      }
    }
  }

  /** Forces through the body's couplers; parts contacts that would pull, or push, the wrong way. */
  private boolean couplers() {
    boolean parted = false;
    double sum = 0;
    for (int k = from; k < to; k++) {
      sum += outside(k) - resistance.kg[k] * a[k];
      push[k] = sum;
      boolean pulledOpen = stock.contact[k] == Stock.PUSH && inTension(k);
      boolean pushedIn = stock.contact[k] == Stock.PULL && push[k] > SLACK;
      if (pulledOpen || pushedIn) {
        stock.contact[k] = Stock.FREE;
        parting[k] = true;
        parted = true;
      }
    }
    push[to] = 0;
    return parted;
  }

  /** Force in N on the vehicle at a place from outside the body; never asked for the last. */
  private double outside(int k) {
    double drag = resistance.drag(k, v) + resistance.dragSlope(k, v) * a[k] * h / 2;
    double newtons = share * resistance.friction[k] - drag;
    newtons += resistance.gravity(k, stock.moved[k] + v * h / 2);
    Drive drive = drive(k);
    if (drive != null) {
      newtons += drive.rail;
    }
    EndStop low = k == stock.first[row] ? stock.lowStop[row] : null;
    if (low != null && share > 0 && low.bears(stock.lowGap(row))) {
      newtons += share * low.newtons();
    }
    return k == from && wall > 0 ? newtons + wall : newtons;
  }
}
