package bufferstop.railway;

import bufferstop.railway.VehicleData.LocoData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A permanent-magnet motor on a two-rail supply. It keeps apart what is easily confused (reference
 * F3.6): open circuit, no current at all, the train coasts; shorted, i = -k w / R, it brakes;
 * reversed supply, i = -(V + k w) / R, nearly twice the stall current. A rectifier takes no current
 * back: a train faster than V / k coasts. The direction is that of the supply, whichever way the
 * locomotive faces (NEM 631).
 */
final class DcDrive extends Drive {
  /** A shorted winding has this share of its resistance left, and no torque (project choice). */
  private static final double SHORTED_SHARE = 0.05;

  private final double k;
  private final double ohms;
  private final double friction;
  private final double rotor;
  private Feed feed;
  private boolean closed;
  private boolean brakes; // circuit closed on itself
  private double volts; // along the row
  private double sign = 1; // of the feed's own direction

  DcDrive(int vehicle, LocoData loco, Motor motor) {
    super(vehicle, loco);
    k = motor.newtonsPerAmpere();
    ohms = motor.ohms();
    friction = motor.frictionNewtons();
    rotor = motor.addedKg();
  }

  @Override
  void prepare(Feed feed, int along, int high, double seconds) {
    this.feed = feed;
    closed = feed != null && feed.closed();
    brakes = feed != null && !closed && feed.data.shortedWhenOff();
    volts = closed ? feed.trackVolts() * high : 0;
    sign = high;
  }

  @Override
  double frictionNewtons() {
    return friction;
  }

  @Override
  double rotorKg() {
    return rotor;
  }

  private boolean conducts(double w) {
    if (isOpen() || isShorted() || !closed) {
      return !isOpen() && !isShorted() && brakes;
    }
    return feed.data.returnsCurrent() || (volts - k * w) * volts > 0;
  }

  @Override
  double newtons(double w) {
    return conducts(w) ? k * (volts - k * w) / ohms : 0;
  }

  @Override
  double slope(double w) {
    return conducts(w) ? k * k / ohms : 0;
  }

  @Override
  double amperes() {
    if (isShorted() && closed) {
      return volts / (ohms * SHORTED_SHARE);
    }
    return conducts(wheel) ? (volts - k * wheel) / ohms : 0;
  }

  @Override
  double drawn() {
    double own = closed ? amperes() * sign : 0;
    return feed != null && feed.trackVolts() < 0 ? -own : own;
  }

  @Override
  void save(DataOutput to) throws IOException {
    super.save(to);
    to.writeBoolean(closed);
    to.writeBoolean(brakes);
    to.writeDouble(volts);
    to.writeDouble(sign);
  }

  @Override
  void restore(DataInput from) throws IOException {
    super.restore(from);
    closed = from.readBoolean();
    brakes = from.readBoolean();
    volts = from.readDouble();
    sign = from.readDouble();
  }
}
