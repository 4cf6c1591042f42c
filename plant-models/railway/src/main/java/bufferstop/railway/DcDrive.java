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
  private final double k;
  private final double ohms;
  private final double viscous;
  private final double henries;
  private Feed feed;
  private boolean closed;
  private boolean brakes; // circuit closed on itself
  private double volts; // along the row
  private double sign = 1; // of the feed's own direction
  private double current; // state of the inductance, A along the row
  private double g; // half a stretch over the inductance, 1/ohm

  DcDrive(int vehicle, LocoData loco, Motor motor) {
    super(vehicle, loco, motor.frictionNewtons(), motor.addedKg());
    k = motor.newtonsPerAmpere();
    ohms = motor.ohms();
    viscous = motor.viscousNewtons();
    henries = motor.henries();
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
  boolean isBusy() {
    return super.isBusy() || henries > 0 && (current != 0 || volts != 0);
  }

  @Override
  void turn() {
    super.turn();
    current = -current;
  }

  private boolean conducts(double w) {
    if (isOpen() || isShorted() || !closed) {
      return !isOpen() && !isShorted() && brakes;
    }
    return feed.data.returnsCurrent() || (volts - k * w) * volts > 0 || current * volts > 0;
  }

  @Override
  void expect(double seconds) {
    g = seconds / (2 * henries); // infinite without inductance
  }

  /**
   * Current over a stretch, implicit midpoint: i = (i0 + g (V - k w)) / (1 + R g); without
   * inductance (V - k w) / R.
   */
  private double meanCurrent(double w, double stretch) {
    return henries > 0
        ? (current + stretch * (volts - k * w)) / (1 + ohms * stretch)
        : (volts - k * w) / ohms;
  }

  @Override
  void passed(double seconds, double meanSpeed) {
    if (henries > 0) {
      boolean conducts = conducts(meanSpeed);
      double mean = conducts ? meanCurrent(meanSpeed, seconds / (2 * henries)) : 0;
      // where the inductance is long done within the stretch the midpoint rule would swing
      boolean stiff = ohms * seconds > henries;
      current = conducts ? (stiff ? mean : 2 * mean - current) : 0;
      boolean against = closed && !feed.data.returnsCurrent() && current * volts < 0;
      current = against ? 0 : current;
    }
  }

  @Override
  double newtons(double w) {
    return (conducts(w) ? k * meanCurrent(w, g) : 0) - viscous * w;
  }

  @Override
  double slope(double w) {
    double electric = henries > 0 ? k * k * g / (1 + ohms * g) : k * k / ohms;
    return (conducts(w) ? electric : 0) + viscous;
  }

  @Override
  double amperes() {
    if (isShorted() && closed) {
      return volts / (ohms * SHORTED_SHARE);
    }
    if (henries > 0) {
      return current;
    }
    return conducts(wheel) ? (volts - k * wheel) / ohms : 0;
  }

  @Override
  double drawn() {
    double own = closed ? amperes() * sign : 0;
    return feed != null && feed.trackVolts() < 0 ? -own : own;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    super.save(to);
    to.writeBoolean(closed);
    to.writeBoolean(brakes);
    to.writeDouble(volts);
    to.writeDouble(sign);
    to.writeDouble(current);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    super.restore(from);
    closed = from.readBoolean();
    brakes = from.readBoolean();
    volts = from.readDouble();
    sign = from.readDouble();
    current = from.readDouble();
  }
}
