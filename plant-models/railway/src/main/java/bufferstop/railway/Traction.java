package bufferstop.railway;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * The motor's electric circuit. It keeps apart what is easily confused (reference F3.6): open
 * circuit, no current at all, the train coasts; shorted, i = -k w / R, it brakes; reversed supply,
 * i = -(V + k w) / R, nearly twice the stall current. A rectifier supply takes no current back: a
 * train faster than V / k coasts.
 */
final class Traction {
  private final double k;
  private final double ohms;
  private final boolean returnsCurrent;
  private final boolean shortedWhenOff;
  private boolean open;
  private boolean closed;
  private double volts;

  Traction(LineData line) {
    k = line.loco().motor().newtonsPerAmpere();
    ohms = line.loco().motor().ohms();
    returnsCurrent = line.supplyReturnsCurrent();
    shortedWhenOff = line.shortedWhenOff();
  }

  /** Fault: a lead or a brush of the motor is open. */
  void breakCircuit(boolean broken) {
    open = broken;
  }

  /** Sets the contactors and the supply for the coming step. */
  void feed(boolean closed, boolean reversed, double supplyVolts) {
    this.closed = closed;
    volts = reversed ? -supplyVolts : supplyVolts;
  }

  /** Current in A at wheel rim speed {@code w} in m/s; positive drives towards the shed. */
  double amperes(double w) {
    return conducts(w) ? (appliedVolts() - k * w) / ohms : 0;
  }

  /** Force in N of the motor at standstill, if the circuit conducts at speed {@code w}. */
  double standingNewtons(double w) {
    return conducts(w) ? k * appliedVolts() / ohms : 0;
  }

  /** Loss of force in N per m/s of wheel rim speed. */
  double newtonsPerSpeed(double w) {
    return conducts(w) ? k * k / ohms : 0;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(open);
    to.writeBoolean(closed);
    to.writeDouble(volts);
  }

  void restore(DataInput from) throws IOException {
    open = from.readBoolean();
    closed = from.readBoolean();
    volts = from.readDouble();
  }

  private boolean conducts(double w) {
    if (open) {
      return false;
    }
    if (!closed) {
      return shortedWhenOff;
    }
    return returnsCurrent || (volts - k * w) * volts > 0;
  }

  private double appliedVolts() {
    return closed ? volts : 0;
  }
}
