package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * One cycle of momentary values: their true rms, or their fundamental by a full-cycle Fourier sum.
 * The window is a cycle of the nominal frequency, whatever the frequency is. Whoever fills it keeps
 * the place, which goes round; a steady state at nominal frequency need not be written again, since
 * the place of a moment of the cycle stays the same.
 */
final class CycleWindow {
  private final double[] ring;
  private final double[] cosine;
  private final double[] sine;
  private int samples;
  private double squares;
  private double re;
  private double im;

  /**
   * @param most samples of a cycle it can hold
   */
  CycleWindow(int most) {
    ring = new double[most];
    cosine = new double[most];
    sine = new double[most];
  }

  /** Before the first value: how many make a cycle. */
  void begin(int samples) {
    this.samples = samples;
    for (int i = 0; i < samples; i++) {
      cosine[i] = StrictMath.cos(2 * Math.PI * i / samples);
      sine[i] = StrictMath.sin(2 * Math.PI * i / samples);
    }
  }

  void take(int place, double value) {
    double old = ring[place];
    ring[place] = value;
    squares += value * value - old * old;
    re += (value - old) * cosine[place];
    im -= (value - old) * sine[place];
    if (place == samples - 1) {
      refresh();
    }
  }

  /** Sums anew once a cycle, so that rounding does not build up. */
  private void refresh() {
    squares = 0;
    re = 0;
    im = 0;
    for (int i = 0; i < samples; i++) {
      squares += ring[i] * ring[i];
      re += ring[i] * cosine[i];
      im -= ring[i] * sine[i];
    }
  }

  /** Mean of the squares over the cycle. */
  double meanSquare() {
    return Math.max(0, squares / samples);
  }

  /** Rms of the fundamental. */
  double fundamental() {
    return Network.SQRT2 * Math.sqrt(re * re + im * im) / samples;
  }

  void save(DataOutput to) throws IOException {
    to.writeInt(samples);
    for (int i = 0; i < samples; i++) {
      to.writeDouble(ring[i]);
    }
    to.writeDouble(squares);
    to.writeDouble(re);
    to.writeDouble(im);
  }

  void restore(DataInput from) throws IOException {
    begin(from.readInt());
    for (int i = 0; i < samples; i++) {
      ring[i] = from.readDouble();
    }
    squares = from.readDouble();
    re = from.readDouble();
    im = from.readDouble();
  }
}
