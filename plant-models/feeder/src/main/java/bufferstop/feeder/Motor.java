package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * An induction motor as one impedance that depends on slip, per unit of its own rating: R1 + R2/s +
 * jX beside a magnetising susceptance, so that it draws rated power at rated slip and its starting
 * current at standstill (R1 = R2). 2H dw/dt = torque - load torque, of which 2 % is friction and
 * the rest grows with the square of speed. [derived; the split of resistance and the load's law are
 * project choices]
 */
final class Motor {
  /** A contactor lets go after its coil has lacked voltage for this long, s. */
  private static final double HOLD_SECONDS = 0.03;

  /** A speed that changes by less than this a second has settled. */
  private static final double SETTLED = 1e-6;

  /** Longest step its equation bears, s. */
  private static final double LONGEST = 0.005;

  /** What turns hard however slowly, share of the load's rated torque. */
  private static final double FRICTION = 0.02;

  private final double resistance; // of stator, and of rotor
  private final double reactance;
  private final double magnetising;
  private final double twoInertia;
  private final double ratedTorque;
  private final double ratedSpeed;
  private double speed;
  private boolean steady;
  private double low; // seconds without voltage

  Motor(LoadData data) {
    double pf = data.powerFactor();
    double z = 1 / data.startCurrent();
    reactance = z * Math.sqrt(1 - data.startPowerFactor() * data.startPowerFactor());
    resistance = z * data.startPowerFactor() / 2;
    double q = (1 / pf + Math.sqrt(1 / (pf * pf) - 4 * reactance * reactance)) / 2;
    double slip = resistance / (q - resistance);
    double series = reactance / (q * q + reactance * reactance);
    magnetising = Math.max(0, Math.sqrt(1 - pf * pf) - series);
    twoInertia = 2 * data.inertiaSeconds();
    ratedSpeed = 1 - slip;
    ratedTorque = torque(slip, 1);
    speed = ratedSpeed;
  }

  /** Starting current and power factor must leave room for rated power. */
  static boolean isPossible(LoadData data) {
    double x =
        Math.sqrt(1 - data.startPowerFactor() * data.startPowerFactor()) / data.startCurrent();
    return 1 / (data.powerFactor() * data.powerFactor()) > 4 * x * x;
  }

  private double slip() {
    return Math.max(1 - speed, 1e-4);
  }

  private double torque(double slip, double volts) {
    double r = resistance + resistance / slip;
    return volts * volts * (resistance / slip) / (r * r + reactance * reactance);
  }

  /** Moves on; a step longer than its equation bears is taken in parts until it is settled. */
  void step(double seconds, double volts) {
    move(Math.min(seconds, LONGEST), volts);
    double left = seconds - LONGEST;
    for (; left > 0 && !steady; left -= LONGEST) {
      move(Math.min(left, LONGEST), volts);
    }
    low += volts < Load.DEAD && left > 0 ? left : 0;
  }

  private void move(double seconds, double volts) {
    double was = speed;
    double share = speed / ratedSpeed;
    double load = speed > 0 ? ratedTorque * (FRICTION + (1 - FRICTION) * share * share) : 0;
    speed += seconds * (torque(slip(), volts) - load) / twoInertia;
    speed = Math.min(Math.max(speed, 0), 1);
    low = volts < Load.DEAD ? low + seconds : 0;
    steady = Math.abs(speed - was) <= SETTLED * seconds && (volts >= Load.DEAD || low > 1);
  }

  /** Its speed has settled. */
  boolean idle() {
    return steady;
  }

  /** Whether its contactor has let go for want of voltage. */
  boolean droppedOut(double seconds) {
    return low > HOLD_SECONDS + seconds / 2;
  }

  double siemens() {
    double r = resistance + resistance / slip();
    return r / (r * r + reactance * reactance);
  }

  double susceptance() {
    double r = resistance + resistance / slip();
    return -reactance / (r * r + reactance * reactance) - magnetising;
  }

  double harmonicSiemens(int order) {
    double x = order * reactance;
    return 2 * resistance / (4 * resistance * resistance + x * x);
  }

  double harmonicSusceptance(int order) {
    double x = order * reactance;
    return -x / (4 * resistance * resistance + x * x);
  }

  double speed() {
    return speed;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(speed);
    to.writeDouble(low);
    to.writeBoolean(steady);
  }

  void restore(DataInput from) throws IOException {
    speed = from.readDouble();
    low = from.readDouble();
    steady = from.readBoolean();
  }
}
