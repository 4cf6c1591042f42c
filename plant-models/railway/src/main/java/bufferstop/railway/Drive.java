package bufferstop.railway;

import bufferstop.railway.VehicleData.LocoData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * What drives one locomotive, seen at the rim of its driven wheels. Speeds and forces count along
 * the locomotive's row. Between two preparations its force depends on the speed of the rim alone.
 */
abstract class Drive implements Stateful {
  /** A shorted winding has this share of its resistance left, and no torque (project choice). */
  static final double SHORTED_SHARE = 0.05;

  final int vehicle;
  final LocoData loco;
  private final double frictionNewtons;
  private final double rotorKg;

  /** Speed of the driven wheels' rim in m/s; other than the vehicle's while they slip. */
  double wheel;

  // Worked out by Forces for one stretch of time.
  double wheelA;
  double rail;
  boolean slips;
  double sense;

  /** What the rail can take, N. */
  double adhesionNewtons;

  private boolean open;
  private boolean shorted;

  /**
   * @param frictionNewtons friction of motor and gear at the rim
   * @param rotorKg inertia of motor and gear at the rim
   */
  Drive(int vehicle, LocoData loco, double frictionNewtons, double rotorKg) {
    this.vehicle = vehicle;
    this.loco = loco;
    this.frictionNewtons = frictionNewtons;
    this.rotorKg = rotorKg;
  }

  /** Says for how long a stretch of time forces will be asked for, s. */
  void expect(double seconds) {}

  /** Takes what happened in a stretch: its length in s and the mean speed of the rim in m/s. */
  void passed(double seconds, double meanSpeed) {}

  /** Friction of motor and gear at the rim, N. */
  double frictionNewtons() {
    return frictionNewtons;
  }

  /** Inertia of motor and gear at the rim, kg. */
  double rotorKg() {
    return rotorKg;
  }

  /** Force in N at a speed of the rim. */
  abstract double newtons(double w);

  /** Loss of force in N for each m/s more of the rim, not below 0. */
  abstract double slope(double w);

  /** Current in A as a meter at the motor shows it. */
  abstract double amperes();

  /** Current in A taken from the feed at the present speed, by the feed's own direction. */
  double drawn() {
    return amperes();
  }

  /**
   * Sets what the track gives.
   *
   * @param feed the one it stands on; null where there is none, or no contact
   * @param along +1 where its front points along its row, else -1
   * @param high +1 where the high end of its segment lies along its row, else -1
   */
  abstract void prepare(Feed feed, int along, int high, double seconds);

  /** Whether its wheels turn or begin to, or its current still changes. */
  boolean isBusy() {
    return wheel != 0 || wheelA != 0;
  }

  /** Fault: a lead or a brush is open. */
  void breakCircuit(boolean broken) {
    open = broken;
  }

  /** Fault: its winding is shorted. */
  void shortCircuit(boolean shorted) {
    this.shorted = shorted;
  }

  boolean isOpen() {
    return open;
  }

  boolean isShorted() {
    return shorted;
  }

  /**
   * Coefficient of adhesion over speed on dry rail, as a share of that at standstill: Curtius and
   * Kniffler, 7.5/(V + 44) + 0.161, V in km/h [from memory, not re-read] (reference 1.4).
   */
  static double curtiusKniffler(double speed) {
    return 7.5 / (3.6 * Math.abs(speed) + 44) + 0.161;
  }

  double coefficient(double speed) {
    return loco.adhesionBySpeed()
        ? loco.adhesion() * curtiusKniffler(speed) / curtiusKniffler(0)
        : loco.adhesion();
  }

  /** Its row runs the other way from now on. */
  void turn() {
    wheel = -wheel;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(wheel);
    to.writeBoolean(open);
    to.writeBoolean(shorted);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    wheel = from.readDouble();
    open = from.readBoolean();
    shorted = from.readBoolean();
  }
}
