package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * What a relay sees: the secondaries of its current transformers (three phases and their sum) and
 * of its voltage transformers, each over one cycle, and the frequency of the voltage.
 */
final class Measurement {

  /** How the currents are filtered. */
  enum Filter {
    /** True rms of one cycle. */
    RMS,
    /** Fundamental by a full-cycle Fourier sum. */
    FUNDAMENTAL,
    /**
     * The phasors themselves, at once and without offset; also used at steps above a tenth cycle.
     */
    IDEAL
  }

  static final int MOST_SAMPLES = 400;
  private static final int FEWEST_SAMPLES = 10;
  private static final double HERTZ_SECONDS = 0.1; // lag of the frequency

  final double currentRatio; // primary over secondary
  final double voltageRatio;
  final double secondaryAmperes;
  private final int branch;
  private final int voltNode;
  private final boolean hasVolts;
  private final double secondaryVolts;
  private final double nominalHertz;
  private final Filter filter;
  private final CurrentTransformer[] cts = new CurrentTransformer[3];
  private final CycleWindow[] windows = new CycleWindow[4];
  private final CycleWindow[] voltWindows = new CycleWindow[3];
  private final double[] current = new double[4];
  private final double[] volts = new double[3];
  private boolean voltsOpen;
  private double hertz;
  private double lastHertz; // true one, a step before
  private int samples;
  private int place;
  private int steady; // samples since the network last changed
  private boolean fresh; // steady ones have all been taken

  Measurement(Settings s, int branch, Tree tree, double nominalHertz) {
    this.branch = branch;
    this.nominalHertz = nominalHertz;
    hertz = nominalHertz;
    filter = Filter.valueOf(s.text("measures").toUpperCase(java.util.Locale.ROOT));
    Settings ct = s.item("ct");
    currentRatio = ct.number("primary") / ct.number("secondary");
    secondaryAmperes = ct.number("secondary");
    for (int p = 0; p < 3; p++) {
      cts[p] =
          new CurrentTransformer(
              ct.number("primary"),
              ct.number("secondary"),
              ct.text("polarity").equals("reversed"),
              ct.number("accuracy_limit"),
              nominalHertz);
      voltWindows[p] = new CycleWindow(MOST_SAMPLES);
    }
    for (int i = 0; i < 4; i++) {
      windows[i] = new CycleWindow(MOST_SAMPLES);
    }
    hasVolts = s.has("vt");
    voltageRatio = hasVolts ? s.item("vt").number("primary") / s.item("vt").number("secondary") : 1;
    secondaryVolts = hasVolts ? s.item("vt").number("secondary") : 1;
    boolean bus = !hasVolts || s.item("vt").text("side").equals("bus");
    voltNode = bus ? Math.max(tree.branch(branch).parent(), 1) : branch;
  }

  CurrentTransformer ct(int phase) {
    return cts[phase];
  }

  /** Fault: the voltage transformers' fuses are gone. */
  void loseVolts(boolean lost) {
    voltsOpen = lost;
  }

  /**
   * One step.
   *
   * @param changed whether the network is another than a step before
   * @return whether what it sees may have changed
   */
  boolean step(Network network, Angle angle, double seconds, double hertzNow, boolean changed) {
    if (samples == 0) {
      begin(seconds);
    }
    boolean stands = !changed && !network.hasDc() && hertzNow == lastHertz;
    lastHertz = hertzNow;
    steady = stands ? Math.min(steady + 1, samples + 1) : 0;
    boolean ideal = filter == Filter.IDEAL || samples < FEWEST_SAMPLES;
    if (fresh && stands) {
      tick(network, angle, seconds, hertzNow);
      return false;
    }
    if (ideal) {
      phasors(network);
    } else {
      sample(network, angle, seconds);
    }
    sampleVolts(network, ideal);
    double wanted = live() ? hertzNow : nominalHertz;
    hertz += (wanted - hertz) * seconds / (HERTZ_SECONDS + seconds);
    if (Math.abs(wanted - hertz) < 1e-9) {
      hertz = wanted;
    }
    fresh = steady > samples && hertz == wanted;
    advance();
    return true;
  }

  private void begin(double seconds) {
    samples = (int) Math.min(MOST_SAMPLES, Math.max(1, Math.round(1 / (nominalHertz * seconds))));
    for (CycleWindow each : windows) {
      each.begin(samples);
    }
    for (CycleWindow each : voltWindows) {
      each.begin(samples);
    }
  }

  private void advance() {
    if (++place >= samples) {
      place = 0;
    }
  }

  /**
   * A step in which nothing has changed. At nominal frequency the window stands as it is and only
   * goes round; off it the moments move through it and go on being taken.
   */
  void tick(Network network, Angle angle, double seconds, double hertzNow) {
    if (hertzNow != nominalHertz && filter != Filter.IDEAL && samples >= FEWEST_SAMPLES) {
      sample(network, angle, seconds);
    }
    advance();
  }

  /** All of the window holds the present steady state. */
  boolean isFresh() {
    return fresh;
  }

  /** A transformer was opened, turned or left with flux: nothing is steady any more. */
  void disturb() {
    steady = 0;
    fresh = false;
  }

  private void phasors(Network network) {
    double re = 0;
    double im = 0;
    for (int p = 0; p < 3; p++) {
      int at = Phasors.VECTOR * branch + 2 * p;
      double k = cts[p].factor();
      re += k * network.flow[at];
      im += k * network.flow[at + 1];
      double square = Phasors.square(network.flow, at);
      if (filter == Filter.RMS) {
        square += network.spectrum().currentSquares(branch, p);
      }
      current[p] = Math.abs(k) * Math.sqrt(square);
    }
    current[3] = Math.sqrt(re * re + im * im);
  }

  private void sample(Network network, Angle angle, double seconds) {
    double sum = 0;
    int before = place == 0 ? samples - 1 : place - 1;
    for (int p = 0; p < 3; p++) {
      double given = cts[p].sample(network.sample(branch, p, angle), seconds, place, before);
      sum += given;
      windows[p].take(place, given);
      if (filter == Filter.RMS) {
        double k = cts[p].factor();
        double harmonics = network.spectrum().currentSquares(branch, p);
        current[p] = Math.sqrt(windows[p].meanSquare() + k * k * harmonics);
      } else {
        current[p] = windows[p].fundamental();
      }
    }
    windows[3].take(place, sum);
    current[3] =
        filter == Filter.RMS ? Math.sqrt(windows[3].meanSquare()) : windows[3].fundamental();
  }

  private void sampleVolts(Network network, boolean ideal) {
    if (!hasVolts) {
      return;
    }
    for (int p = 0; p < 3; p++) {
      double now = voltsOpen ? 0 : network.volts(voltNode, p) / voltageRatio;
      if (ideal) {
        volts[p] = now;
      } else {
        voltWindows[p].take(place, now);
        volts[p] = Math.sqrt(voltWindows[p].meanSquare());
      }
    }
  }

  /** Secondary current in A of a phase, 3 for the sum of all. */
  double current(int phase) {
    return current[phase];
  }

  /** Greatest secondary phase current in A. */
  double most() {
    return Math.max(current[0], Math.max(current[1], current[2]));
  }

  boolean hasVolts() {
    return hasVolts;
  }

  /** Lowest secondary voltage phase to neutral, V. */
  double lowestVolts() {
    return Math.min(volts[0], Math.min(volts[1], volts[2]));
  }

  double highestVolts() {
    return Math.max(volts[0], Math.max(volts[1], volts[2]));
  }

  /** There is enough voltage to tell a frequency from. */
  boolean live() {
    return hasVolts && highestVolts() > 0.3 * secondaryVolts / Math.sqrt(3);
  }

  double hertz() {
    return hertz;
  }

  void save(DataOutput to) throws IOException {
    to.writeInt(samples);
    to.writeInt(place);
    to.writeInt(steady);
    to.writeBoolean(fresh);
    to.writeBoolean(voltsOpen);
    to.writeDouble(hertz);
    to.writeDouble(lastHertz);
    for (int i = 0; i < 4; i++) {
      to.writeDouble(current[i]);
      windows[i].save(to);
    }
    for (int p = 0; p < 3; p++) {
      to.writeDouble(volts[p]);
      voltWindows[p].save(to);
      cts[p].save(to);
    }
  }

  void restore(DataInput from) throws IOException {
    samples = from.readInt();
    place = from.readInt();
    steady = from.readInt();
    fresh = from.readBoolean();
    voltsOpen = from.readBoolean();
    hertz = from.readDouble();
    lastHertz = from.readDouble();
    for (int i = 0; i < 4; i++) {
      current[i] = from.readDouble();
      windows[i].restore(from);
    }
    for (int p = 0; p < 3; p++) {
      volts[p] = from.readDouble();
      voltWindows[p].restore(from);
      cts[p].restore(from);
    }
  }
}
