package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A current transformer of one phase. Its core takes so much flux: the integral of the secondary
 * current, times a burden that cancels out, stays within that of a sine of {@code limit} times
 * rated current; where it would leave, no secondary current flows. [project choice: an ideal core
 * with a knee, no leakage]
 */
final class CurrentTransformer {
  private final double factor; // secondary over primary, with its polarity
  private final double fluxLimit; // A s; infinite when it does not saturate
  private final double[] flux; // at each place of the cycle, so that a steady state stands in it
  private double remanence; // share of the limit, a fault
  private boolean open;
  private boolean turned;

  /**
   * @param limit multiple of rated current that it just carries over without offset; 0 for any
   */
  CurrentTransformer(
      double primary, double secondary, boolean reversed, double limit, double hertz) {
    factor = (reversed ? -1 : 1) * secondary / primary;
    fluxLimit =
        limit > 0
            ? Network.SQRT2 * limit * secondary / (2 * Math.PI * hertz)
            : Double.POSITIVE_INFINITY;
    flux = new double[limit > 0 ? Measurement.MOST_SAMPLES : 0];
  }

  /** Fault: its secondary is open, so that the relay sees nothing of it. */
  void breakOpen(boolean open) {
    this.open = open;
  }

  /** Fault: its two leads are exchanged. */
  void turn(boolean turned) {
    this.turned = turned;
  }

  /** Fault: flux is left in its core, a share of what it takes. */
  void leaveFlux(double share) {
    remanence = share;
    java.util.Arrays.fill(flux, share * fluxLimit);
  }

  /** Secondary over primary as it is now, 0 when open. */
  double factor() {
    return open ? 0 : turned ? -factor : factor;
  }

  /**
   * The secondary's momentary current for a primary one, held over a step.
   *
   * @param place in the cycle
   * @param before the place of the step before
   */
  double sample(double primary, double seconds, int place, int before) {
    double ideal = factor() * primary;
    if (fluxLimit == Double.POSITIVE_INFINITY) {
      return ideal;
    }
    double wanted = flux[before] + ideal * seconds;
    double next = Math.min(Math.max(wanted, -fluxLimit), fluxLimit);
    double given = (next - flux[before]) / seconds;
    // without a current the flux fades to what the core keeps
    flux[place] = ideal == 0 ? next + (remanence * fluxLimit - next) * seconds : next;
    return given;
  }

  void save(DataOutput to) throws IOException {
    for (double each : flux) {
      to.writeDouble(each);
    }
    to.writeDouble(remanence);
    to.writeBoolean(open);
    to.writeBoolean(turned);
  }

  void restore(DataInput from) throws IOException {
    for (int i = 0; i < flux.length; i++) {
      flux[i] = from.readDouble();
    }
    remanence = from.readDouble();
    open = from.readBoolean();
    turned = from.readBoolean();
  }
}
