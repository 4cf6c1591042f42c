package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * An engine with its generator, per unit of the generator's rating. Rotor: 2H dw/dt = torque of the
 * engine less that of the generator. Governor: droop, one lag, limits of the engine, and slowly
 * back to nominal frequency. Field: one axis, Td dE/dt = Ef - E - (Xd - X'd) Id, so that a short
 * circuit fades from the transient to the synchronous reactance. Regulator: proportional and
 * integral with a ceiling. Its own trips open its breaker and stop the engine. [derived, textbook
 * models; saliency, saturation and subtransient reactance are left out]
 */
final class GeneratingSet {
  /** What stopped it; {@link #number} goes to a port. */
  enum Cause {
    NONE(0, ""),
    OVERFREQUENCY(1081, "generating set tripped on overspeed, Hz"),
    UNDERFREQUENCY(81, "generating set tripped on low frequency, Hz"),
    OVERVOLTAGE(59, "generating set tripped on high voltage, share"),
    UNDERVOLTAGE(27, "generating set tripped on low voltage, share"),
    OVERCURRENT(51, "generating set tripped on overcurrent, share"),
    ENGINE(1, "generating set stopped: its engine failed");

    final int number;
    final String text;

    Cause(int number, String text) {
      this.number = number;
      this.text = text;
    }
  }

  private static final double FIELD_CEILING = 3.0;
  private static final double LONGEST = 0.01; // s

  /** It swings no longer than this after a change of its load, s. */
  private static final double SETTLING = 20;

  private static final double MOST_TORQUE = 1.1;

  private final double rating;
  private final double twoInertia;
  private final double droop;
  private final double governorSeconds;
  private final double restoreSeconds;
  private final double transientReactance;
  private final double synchronous;
  private final double fieldSeconds;
  private final double gain;
  private final double startSeconds;
  private final double nominalHertz;
  private final Timed[] trips;
  private final double[] limits;
  private boolean running = true;
  private boolean excited = true; // at speed, its breaker closed
  private boolean engineFails;
  private Cause cause = Cause.NONE;
  private double speed = 1;
  private double torque;
  private double reference;
  private double emf = 1;
  private double regulated; // integral part of the regulator
  private double power; // shares of rating, of the last solution
  private double reactive;
  private double volts = 1;
  private double current;

  GeneratingSet(Settings s, double nominalHertz) {
    this.nominalHertz = nominalHertz;
    rating = s.number("rating");
    twoInertia = 2 * s.number("inertia");
    droop = s.number("droop");
    governorSeconds = s.number("governor_time");
    restoreSeconds = s.number("restore_time");
    transientReactance = s.number("transient_reactance");
    synchronous = s.number("synchronous_reactance");
    fieldSeconds = s.number("field_time");
    gain = s.number("regulator_gain");
    startSeconds = s.number("start_time");
    limits =
        new double[] {
          s.number("overfrequency") / nominalHertz,
          s.number("underfrequency") / nominalHertz,
          s.number("overvoltage"),
          s.number("undervoltage"),
          s.number("overcurrent")
        };
    trips =
        new Timed[] {
          new Timed(s.number("overfrequency_delay")),
          new Timed(s.number("underfrequency_delay")),
          new Timed(s.number("overvoltage_delay")),
          new Timed(s.number("undervoltage_delay")),
          new Timed(s.number("overcurrent_delay"))
        };
  }

  /** Starts it, unless a trip has not been reset. */
  void start() {
    if (cause == Cause.NONE && !engineFails) {
      running = true;
    }
  }

  void stop() {
    running = false;
  }

  void reset() {
    cause = Cause.NONE;
  }

  /** Fault: the engine gives no torque. */
  void failEngine(boolean fails) {
    engineFails = fails;
  }

  /** Before the first step: inner voltage so much higher, until the terminals have theirs. */
  void scaleEmf(double by) {
    emf *= by;
  }

  /** Before the first step: it has carried this load, in shares of nothing but watts, for long. */
  void settle(double watts, double vars) {
    power = watts / rating;
    reactive = vars / rating;
    torque = Math.min(power, MOST_TORQUE);
    if (restoreSeconds > 0) {
      reference = torque;
    } else {
      speed = 1 - droop * torque;
    }
    double field = emf + (synchronous - transientReactance) * reactive / emf;
    regulated = Math.min(Math.max(field - 1, -FIELD_CEILING), FIELD_CEILING);
  }

  /** Its breaker is closed: at speed and not tripped. */
  boolean connected() {
    return excited;
  }

  /**
   * Moves on by one step. A step longer than its equations bear is taken in parts, in which the
   * load's power stays and the terminal voltage follows the inner one; after {@link #SETTLING} it
   * has done what it will.
   *
   * @param watts power of the inner voltage, of the last solution
   * @param vars reactive power likewise
   * @param volts terminal voltage, share of nominal
   * @return what tripped it in this step, else NONE
   */
  Cause step(double seconds, double watts, double vars, double volts) {
    double seenAt = emf;
    double left = Math.min(seconds, SETTLING);
    Cause tripped = move(Math.min(left, LONGEST), watts, vars, volts);
    boolean still = excited; // where it connects or leaves, the network must be solved first
    for (left -= LONGEST; left > 0 && tripped == Cause.NONE; left -= LONGEST) {
      if (excited != still) {
        break;
      }
      tripped = move(Math.min(left, LONGEST), watts, vars, volts * emf / seenAt);
    }
    return tripped;
  }

  private Cause move(double seconds, double watts, double vars, double volts) {
    this.volts = volts;
    power = watts / rating;
    reactive = vars / rating;
    current = emf > 0 ? Math.sqrt(power * power + reactive * reactive) / emf : 0;
    if (!excited) {
      atRest(seconds);
      return Cause.NONE;
    }
    turn(seconds);
    excite(seconds);
    Cause tripped = watch(Math.round(seconds * 1e6));
    if (tripped != Cause.NONE) {
      cause = tripped;
      running = false;
    }
    if (!running) {
      disconnect();
    }
    return tripped;
  }

  private void disconnect() {
    excited = false;
    torque = 0;
    reference = 0;
    regulated = 0;
    emf = 1;
    power = 0;
    reactive = 0;
    current = 0;
    for (Timed each : trips) {
      each.hold(false, 0);
    }
  }

  private void atRest(double seconds) {
    if (running) {
      speed = Math.min(1, speed + seconds / startSeconds);
      excited = speed >= 1;
    } else {
      speed = Math.max(0, speed - seconds / startSeconds);
    }
  }

  private void turn(double seconds) {
    double wanted = reference + (1 - speed) / droop;
    double limited = engineFails ? 0 : Math.min(Math.max(wanted, 0), MOST_TORQUE);
    torque += (limited - torque) * seconds / (governorSeconds + seconds);
    if (restoreSeconds > 0) {
      double next = reference + (1 - speed) / droop * seconds / restoreSeconds;
      reference = Math.min(Math.max(next, 0), MOST_TORQUE);
    }
    speed += seconds * (torque - power / Math.max(speed, 0.1)) / twoInertia;
    speed = Math.max(speed, 0.1);
  }

  private void excite(double seconds) {
    double error = 1 - volts;
    regulated =
        Math.min(Math.max(regulated + gain * error * seconds, -FIELD_CEILING), FIELD_CEILING);
    double field = Math.min(Math.max(1 + gain * error + regulated, 0), FIELD_CEILING);
    double direct = emf > 0 ? reactive / emf : 0;
    emf += seconds * (field - emf - (synchronous - transientReactance) * direct) / fieldSeconds;
    emf = Math.max(emf, 0.01);
  }

  private Cause watch(long micros) {
    if (engineFails && speed < limits[1]) {
      return Cause.ENGINE;
    }
    if (trips[0].hold(speed > limits[0], micros)) {
      return Cause.OVERFREQUENCY;
    }
    if (trips[1].hold(speed < limits[1], micros)) {
      return Cause.UNDERFREQUENCY;
    }
    if (trips[2].hold(volts > limits[2], micros)) {
      return Cause.OVERVOLTAGE;
    }
    if (trips[3].hold(volts < limits[3], micros)) {
      return Cause.UNDERVOLTAGE;
    }
    return trips[4].hold(current > limits[4], micros) ? Cause.OVERCURRENT : Cause.NONE;
  }

  /** One of its trips is running out its time. */
  boolean counts() {
    for (int i = 0; i < trips.length; i++) {
      if (trips[i].holds()) {
        return true;
      }
    }
    return false;
  }

  /** What an event of this trip carries. */
  double valueOf(Cause tripped) {
    return switch (tripped) {
      case OVERFREQUENCY, UNDERFREQUENCY -> speed * nominalHertz;
      case OVERVOLTAGE, UNDERVOLTAGE -> volts;
      case OVERCURRENT -> current;
      default -> 0;
    };
  }

  double emf() {
    return excited ? emf : 0;
  }

  double speed() {
    return speed;
  }

  Cause cause() {
    return cause;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(running);
    to.writeBoolean(excited);
    to.writeBoolean(engineFails);
    to.writeInt(cause.ordinal());
    for (double each :
        new double[] {speed, torque, reference, emf, regulated, power, reactive, volts, current}) {
      to.writeDouble(each);
    }
    for (Timed each : trips) {
      each.save(to);
    }
  }

  void restore(DataInput from) throws IOException {
    running = from.readBoolean();
    excited = from.readBoolean();
    engineFails = from.readBoolean();
    cause = Cause.values()[from.readInt()];
    speed = from.readDouble();
    torque = from.readDouble();
    reference = from.readDouble();
    emf = from.readDouble();
    regulated = from.readDouble();
    power = from.readDouble();
    reactive = from.readDouble();
    volts = from.readDouble();
    current = from.readDouble();
    for (Timed each : trips) {
      each.restore(from);
    }
  }
}
