package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;

/**
 * A meter. Quantities follow from the phasor spectrum whenever the network is switched, and twice a
 * cycle while it moves; they are averaged over windows of 10 cycles (12 at 60 Hz): rms values as
 * the root of the mean of squares, powers as means. Of three phases the effective values of IEEE
 * Std 1459-2010 for four wires count, Ve and Ie [from memory, not re-read]. The window follows the
 * nominal frequency; phasors have no error off it.
 */
final class Meter {
  /** What is averaged: squares of voltages and currents, then powers. */
  private static final int V = 0; // 3 phases

  private static final int I = 3;
  private static final int VE = 6; // square of the effective voltage
  private static final int VE1 = 7;
  private static final int IE = 8;
  private static final int IE1 = 9;
  private static final int P = 10;
  private static final int P1 = 11;
  private static final int Q1 = 12;
  private static final int LINES = 13; // squares of the voltages ab, bc, ca
  private static final double LIVE = 1; // V^2
  private static final int COUNT = 16;

  private final int node;
  private final Load load; // else null
  private final int first; // phases it is on
  private final int last;
  private final double currentFactor; // shown over true
  private final double powerFactor; // by its error
  private final double starting;
  private final long windowMicros;
  private final PowerQuantities phase = new PowerQuantities();
  private final double[] now = new double[COUNT];
  private final double[] sums = new double[COUNT];
  private final double[] shown = new double[COUNT];
  private final double[] current; // scratch, as long as the network
  final Registers registers = new Registers();
  final Demand demand;
  private boolean failed; // no voltage over the last window
  private long pending; // at the values of now
  private long inWindow;

  /**
   * @param branch of the line it is on, or -1
   * @param load it is on, or null
   * @param draw of its error, 0 to 1
   */
  Meter(Settings s, Tree tree, int branch, Load load, double hertz, double draw) {
    this.load = load;
    node = load == null ? branch : load.node;
    String phases = load == null ? "abc" : load.data.phases();
    first = phases.charAt(0) - 'a';
    last = phases.length() == 1 ? first : 2;
    double actual = s.number("ct_actual");
    double sign = s.text("polarity").equals("reversed") ? -1 : 1;
    currentFactor = sign * (actual > 0 ? s.number("ct_ratio") / actual : 1);
    String accuracy = s.text("accuracy");
    double limit = accuracy.equals("none") ? 0 : Double.parseDouble(accuracy) / 100;
    powerFactor = 1 + limit * (2 * draw - 1);
    starting = s.number("starting_current");
    windowMicros = Math.round((hertz > 55 ? 12 : 10) * 1e6 / hertz);
    current = new double[Phasors.VECTOR * tree.size()];
    demand =
        new Demand(
            s.number("demand_interval"), (int) s.integer("demand_parts"), s.number("clock_start"));
  }

  /** A step in which the network stood still; returns whether what it shows has changed. */
  boolean tick(long micros) {
    pending += micros;
    inWindow += micros;
    if (inWindow < windowMicros) {
      return false;
    }
    flush();
    for (int i = 0; i < COUNT; i++) {
      shown[i] = sums[i] / inWindow;
      sums[i] = 0;
    }
    failed = shown[VE] <= LIVE;
    inWindow = 0;
    return true;
  }

  private void flush() {
    if (pending > 0) {
      for (int i = 0; i < COUNT; i++) {
        sums[i] += now[i] * pending;
      }
      boolean counts = Math.sqrt(now[IE]) >= starting;
      registers.add(
          counts ? now[P] : 0,
          counts ? now[Q1] : 0,
          counts ? wires() * Math.sqrt(now[VE] * now[IE]) : 0,
          pending);
      demand.add(counts ? Math.max(0, now[P]) : 0, pending, now[VE] > LIVE);
      pending = 0;
    }
  }

  /** The network has changed: from here on it sees other values. */
  void look(Network network) {
    flush();
    Arrays.fill(now, 0);
    fundamental(network);
    double[] v = network.v;
    double[] i = current;
    int at = Phasors.VECTOR * node;
    Spectrum spectrum = network.spectrum();
    now[VE1] = effective(v, at);
    now[IE1] = effectiveCurrent(i, at);
    now[VE] = now[VE1];
    addLines(v, at);
    now[IE] = now[IE1];
    for (int p = first; p <= last; p++) {
      int a = at + 2 * p;
      phase.fundamental(v[a], v[a + 1], i[a], i[a + 1]);
      now[P1] += phase.p1();
      now[Q1] += phase.q1();
      now[V + p] = phase.v1() * phase.v1();
      now[I + p] = phase.i1() * phase.i1();
    }
    now[P] = now[P1];
    for (int k = 0; k < spectrum.count(); k++) {
      harmonic(network, k);
    }
    double square = currentFactor * currentFactor;
    now[I] *= square;
    now[I + 1] *= square;
    now[I + 2] *= square;
    now[IE] *= square;
    now[IE1] *= square;
    for (int n = P; n <= Q1; n++) {
      now[n] *= currentFactor * powerFactor;
    }
  }

  private void fundamental(Network network) {
    if (load == null) {
      System.arraycopy(network.flow, 0, current, 0, current.length);
    } else {
      Arrays.fill(current, 0);
      load.current(network.v, current);
    }
  }

  private void harmonic(Network network, int k) {
    Spectrum spectrum = network.spectrum();
    if (load == null) {
      System.arraycopy(spectrum.flow(k), 0, current, 0, current.length);
    } else {
      Arrays.fill(current, 0);
      load.harmonic(spectrum, k, network.v, current);
    }
    double[] v = spectrum.volts(k);
    int at = Phasors.VECTOR * node;
    now[VE] += effective(v, at);
    now[IE] += effectiveCurrent(current, at);
    addLines(v, at);
    for (int p = first; p <= last; p++) {
      int a = at + 2 * p;
      now[P] += v[a] * current[a] + v[a + 1] * current[a + 1];
      now[V + p] += Phasors.square(v, a);
      now[I + p] += Phasors.square(current, a);
    }
  }

  private void addLines(double[] v, int at) {
    for (int p = first; p <= last && last > first; p++) {
      now[LINES + p] += lineSquare(v, at, p);
    }
  }

  /** Square of the voltage from a phase to the next. */
  private static double lineSquare(double[] v, int at, int p) {
    int a = at + 2 * p;
    int b = at + 2 * ((p + 1) % 3);
    double x = v[a] - v[b];
    double y = v[a + 1] - v[b + 1];
    return x * x + y * y;
  }

  /** Square of Ve: (3 sum of phase squares + sum of line squares) / 18; of one phase its own. */
  private double effective(double[] v, int at) {
    if (first == last) {
      return Phasors.square(v, at + 2 * first);
    }
    double phases = 0;
    double lines = 0;
    for (int p = 0; p < 3; p++) {
      phases += Phasors.square(v, at + 2 * p);
      lines += lineSquare(v, at, p);
    }
    return (3 * phases + lines) / 18;
  }

  /** Square of Ie: (sum of phase squares + square of their sum) / 3; of one phase its own. */
  private double effectiveCurrent(double[] i, int at) {
    if (first == last) {
      return Phasors.square(i, at + 2 * first);
    }
    double re = i[at] + i[at + 2] + i[at + 4];
    double im = i[at + 1] + i[at + 3] + i[at + 5];
    double phases = 0;
    for (int p = 0; p < 3; p++) {
      phases += Phasors.square(i, at + 2 * p);
    }
    return (phases + re * re + im * im) / 3;
  }

  private double wires() {
    return first == last ? 1 : 3;
  }

  /** rms of a phase over the last window, V. */
  double volts(int p) {
    return Math.sqrt(shown[V + p]);
  }

  double amperes(int p) {
    return Math.sqrt(shown[I + p]);
  }

  /** Mean of its phases, V. */
  double meanVolts() {
    double sum = 0;
    for (int p = first; p <= last; p++) {
      sum += volts(p);
    }
    return sum / (last - first + 1);
  }

  /** Sum of its phases, A. */
  double totalAmperes() {
    return amperes(0) + amperes(1) + amperes(2);
  }

  /** rms from a phase to the next, V; 0 on a single phase. */
  double lineVolts(int p) {
    return Math.sqrt(shown[LINES + p]);
  }

  double meanLineVolts() {
    return (lineVolts(0) + lineVolts(1) + lineVolts(2)) / 3;
  }

  /** No voltage worth the name over the last window. */
  boolean powerFailed() {
    return failed;
  }

  double watts() {
    return shown[P];
  }

  double fundamentalWatts() {
    return shown[P1];
  }

  double vars() {
    return shown[Q1];
  }

  /** Apparent power, of three phases the effective one, VA. */
  double apparent() {
    return wires() * Math.sqrt(shown[VE] * shown[IE]);
  }

  /** Non-fundamental apparent power, VA. */
  double nonFundamental() {
    double s = shown[VE] * shown[IE] - shown[VE1] * shown[IE1];
    return wires() * Math.sqrt(Math.max(0, s));
  }

  /** True power factor; 1 without a load. */
  double factor() {
    return apparent() > 0 ? watts() / apparent() : 1;
  }

  /** Displacement power factor, of the fundamental. */
  double displacement() {
    double s = Math.sqrt(shown[P1] * shown[P1] + shown[Q1] * shown[Q1]);
    return s > 0 ? shown[P1] / s : 1;
  }

  double thdVolts() {
    return distortion(VE, VE1);
  }

  double thdAmperes() {
    return distortion(IE, IE1);
  }

  private double distortion(int all, int fundamental) {
    return shown[fundamental] > 0
        ? Math.sqrt(Math.max(0, shown[all] - shown[fundamental]) / shown[fundamental])
        : 0;
  }

  void save(DataOutput to) throws IOException {
    for (double[] each : new double[][] {now, sums, shown}) {
      for (double x : each) {
        to.writeDouble(x);
      }
    }
    to.writeBoolean(failed);
    to.writeLong(pending);
    to.writeLong(inWindow);
    registers.save(to);
    demand.save(to);
  }

  void restore(DataInput from) throws IOException {
    for (double[] each : new double[][] {now, sums, shown}) {
      for (int i = 0; i < COUNT; i++) {
        each[i] = from.readDouble();
      }
    }
    failed = from.readBoolean();
    pending = from.readLong();
    inWindow = from.readLong();
    registers.restore(from);
    demand.restore(from);
  }
}
