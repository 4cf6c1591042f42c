package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Where the sources stand in their cycle, as a unit phasor that is turned step by step; sine and
 * cosine are asked for only when the frequency changes. It is brought back to length 1 each step.
 */
final class Angle {
  private double c = 1;
  private double s;
  private double turnC = 1;
  private double turnS;
  private double turnedBy; // what the turn was worked out for, rad

  /** Turns it on by one step. */
  void advance(double hertz, double seconds) {
    double by = 2 * Math.PI * hertz * seconds;
    if (by != turnedBy) {
      turnedBy = by;
      turnC = StrictMath.cos(by);
      turnS = StrictMath.sin(by);
    }
    double was = c;
    c = c * turnC - s * turnS;
    s = was * turnS + s * turnC;
    double right = 1.5 - 0.5 * (c * c + s * s);
    c *= right;
    s *= right;
  }

  /** Momentary value of an rms phasor: sqrt(2) Re(x e^jwt). */
  double moment(double re, double im) {
    return Network.SQRT2 * (re * c - im * s);
  }

  double cosine() {
    return c;
  }

  double sine() {
    return s;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(c);
    to.writeDouble(s);
    to.writeDouble(turnC);
    to.writeDouble(turnS);
    to.writeDouble(turnedBy);
  }

  void restore(DataInput from) throws IOException {
    c = from.readDouble();
    s = from.readDouble();
    turnC = from.readDouble();
    turnS = from.readDouble();
    turnedBy = from.readDouble();
  }
}
