package bufferstop.railway;

import bufferstop.railway.LineData.ConditionerData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A signal conditioner: the sensor switches an AC or DC supply through an opto-isolator and a
 * rectifier onto a capacitor across a relay's coil (reference 6.6). The capacitor's voltage rises
 * through the source resistance and falls through the coil, exactly exponential in each step;
 * ripple is not followed. Without a capacitor, an AC signal is dark around each zero (F6.10).
 */
final class Conditioner implements Stateful {
  private final ConditionerData data;
  private final Armature armature;
  private final double settled;
  private double volts;
  private boolean picked;
  private double seconds; // step for which the two shares were worked out
  private double rise;
  private double fall;

  Conditioner(ConditionerData data, long seed) {
    this.data = data;
    armature = new Armature(data.operateMicros(), data.releaseMicros(), data.bounceMicros(), seed);
    settled = settledVolts(data);
  }

  /** Peak voltage behind the rectifier, V_p = √2 V - drop; of DC the voltage less the drop. */
  static double peakVolts(ConditionerData d) {
    return (d.ac() ? Math.sqrt(2) * d.volts() : d.volts()) - d.diodeDrop();
  }

  /** What the capacitor settles at, V_f = V_p R / (R + R_s) (F6.9). */
  static double settledVolts(ConditionerData d) {
    return peakVolts(d) * d.coilOhms() / (d.coilOhms() + d.sourceOhms());
  }

  /** Ripple, peak to peak, full wave: V_r = I / (2 f C) (F6.7). */
  static double rippleVolts(double amperes, double hertz, double farads) {
    return amperes / (2 * hertz * farads);
  }

  /** Fall from one voltage to another: t = R C ln(V0 / V) (F6.8). */
  static double fallSeconds(double ohms, double farads, double fromVolts, double toVolts) {
    return ohms * farads * StrictMath.log(fromVolts / toVolts);
  }

  /** Rise from nothing to a voltage through the source resistance (F6.9). */
  static double riseSeconds(ConditionerData d, double toVolts) {
    double tau = d.farads() * d.coilOhms() * d.sourceOhms() / (d.coilOhms() + d.sourceOhms());
    return -tau * StrictMath.log(1 - toVolts / settledVolts(d));
  }

  /** Dark time around each zero of an AC signal without capacitor (F6.10). */
  static double darkSeconds(double hertz, double thresholdVolts, double peakVolts) {
    return StrictMath.asin(Math.min(1, thresholdVolts / peakVolts)) / (Math.PI * hertz);
  }

  void start(boolean on) {
    volts = on ? settled : 0;
    picked = on;
    armature.start(on);
  }

  boolean step(boolean on, long stepMicros, long nowMicros) {
    if (data.farads() > 0) {
      prepare(stepMicros * 1e-6);
      volts = on ? settled + (volts - settled) * rise : volts * fall;
    } else {
      volts = on && !isDark(nowMicros) ? settled : 0;
    }
    picked = picked ? volts > data.dropOutVolts() : volts >= data.pickUpVolts();
    return armature.step(picked, nowMicros);
  }

  private void prepare(double step) {
    if (step != seconds) {
      seconds = step;
      double coil = data.coilOhms() * data.farads();
      rise = StrictMath.exp(-step * (1 + data.coilOhms() / data.sourceOhms()) / coil);
      fall = StrictMath.exp(-step / coil);
    }
  }

  private boolean isDark(long nowMicros) {
    if (!data.ac()) {
      return false;
    }
    double half = 1 / (2 * data.hertz());
    double dark = darkSeconds(data.hertz(), data.diodeDrop(), Math.sqrt(2) * data.volts());
    double phase = nowMicros * 1e-6 % half;
    return phase < dark / 2 || phase > half - dark / 2;
  }

  /** By how much it delays the rise and the fall of a signal that has settled before, s. */
  double onSeconds() {
    double rises = data.farads() > 0 ? riseSeconds(data, data.pickUpVolts()) : 0;
    return rises + data.operateMicros() * 1e-6;
  }

  double offSeconds() {
    boolean holds = data.farads() > 0 && data.dropOutVolts() > 0;
    double falls =
        holds ? fallSeconds(data.coilOhms(), data.farads(), settled, data.dropOutVolts()) : 0;
    return falls + data.releaseMicros() * 1e-6;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(volts);
    to.writeBoolean(picked);
    armature.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    volts = from.readDouble();
    picked = from.readBoolean();
    armature.restore(from);
  }
}
