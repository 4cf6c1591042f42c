package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;

/**
 * The network's state as rms phasors of fundamental and harmonics, with the decaying direct current
 * that a switching adds. The equations are made anew when the network changes, solved anew when a
 * load or the source has moved, and otherwise left alone.
 */
final class Network {
  static final double SQRT2 = Math.sqrt(2);
  private static final int MOST_PASSES = 40;

  /** Two passes that differ by less than this share of the nominal voltage agree. */
  private static final double AGREED = 1e-7;

  /** Direct current below this is over, A. */
  private static final double DC_OVER = 1e-4;

  final Tree tree;
  final double[] v;
  final double[] flow; // of each branch, on its far side
  private final double nominalHertz;
  private final List<Load> loads;
  private final List<LineFault> faults;
  private final Ladder fundamental;
  private final Spectrum spectrum;
  private final double[] emf = new double[Phasors.VECTOR];
  private final double[] idle; // no-load voltages of a source of 1 V
  private final double[] previous;
  private final double[] injected;
  private final double[] drawn;
  private final double[] before; // momentary currents ahead of a switching
  private final double[] squares; // likewise, of the phasors
  private final int[] openings; // devices that hold a pole open
  private final double[] dc;
  private final double[] fade; // of the direct current in a step, by branch
  private boolean dcFlows;
  private boolean cut;
  private boolean stale = true; // the network has changed
  private boolean strayed; // only the equations' share of a load has
  private boolean moved = true; // a load or the source has
  private boolean switched;
  private boolean spectrumDue; // the harmonics are those of a state before
  private double sinceSpectrum;
  private int passes;

  Network(Tree tree, double nominalHertz, List<Load> loads, List<LineFault> faults) {
    this.tree = tree;
    this.nominalHertz = nominalHertz;
    this.loads = loads;
    this.faults = faults;
    int length = Phasors.VECTOR * tree.size();
    fundamental = new Ladder(tree, 1);
    spectrum = new Spectrum(tree, loads, faults);
    v = new double[length];
    flow = new double[length];
    previous = new double[length];
    injected = new double[length];
    drawn = new double[length];
    before = new double[3 * tree.size()];
    squares = new double[3 * tree.size()];
    openings = new int[3 * tree.size()];
    dc = new double[3 * tree.size()];
    fade = new double[tree.size()];
    idle = new double[length];
    balanced(1, emf);
    fundamental.clear();
    fundamental.factor();
    fundamental.solve(emf, injected, idle);
    System.arraycopy(idle, 0, v, 0, length);
  }

  /** Three phasors of a balanced system. */
  private static void balanced(double volts, double[] to) {
    double s = Math.sqrt(3) / 2;
    to[0] = volts;
    to[1] = 0;
    to[2] = -volts / 2;
    to[3] = -volts * s;
    to[4] = -volts / 2;
    to[5] = volts * s;
  }

  /** One device more holds a pole of a branch open. */
  void open(int branch, int pole) {
    if (openings[3 * branch + pole]++ == 0) {
      stale = true;
    }
  }

  /** One device less. */
  void close(int branch, int pole) {
    if (--openings[3 * branch + pole] == 0) {
      stale = true;
    }
  }

  boolean isOpen(int branch, int pole) {
    return openings[3 * branch + pole] > 0;
  }

  /** Whether a source feeds the network. */
  void connectSource(boolean connected) {
    if (cut == connected) {
      cut = !connected;
      stale = true;
    }
  }

  /** Whether the last update followed a switching, rather than a load or the source that moved. */
  boolean switched() {
    return switched;
  }

  /** Something in the network has changed. */
  void change() {
    stale = true;
  }

  /** A load has moved. */
  void move(Load load) {
    moved = true;
    if (load.strays()) {
      strayed = true;
    }
  }

  /** The source's inner voltage, phase to neutral. */
  void setEmf(double volts) {
    if (Math.abs(volts - emf[0]) > 1e-9 * Math.abs(emf[0]) || volts == 0 && emf[0] != 0) {
      balanced(volts, emf);
      moved = true;
    }
  }

  /**
   * Brings the solution up to date.
   *
   * @param angle of the sources now, for what a switching adds
   * @param seconds length of a step, 0 for what has been so for long
   * @return whether anything has changed
   */
  boolean update(Angle angle, double seconds) {
    if (!stale && !strayed && !moved) {
      return false;
    }
    if (stale) {
      remember(angle);
    }
    if (stale || strayed) {
      for (int i = 0; i < loads.size(); i++) {
        loads.get(i).rebase();
      }
      makeEquations();
    }
    solve();
    if (stale && seconds > 0) {
      offset(angle, seconds);
    }
    if (stale || strayed) {
      spectrum.factor(this);
    }
    spectrumDue = true;
    switched = stale;
    if (stale || seconds == 0) {
      refreshSpectrum();
    }
    stale = false;
    strayed = false;
    moved = false;
    return true;
  }

  /**
   * Solves the harmonics anew where the network has moved, twice a cycle.
   *
   * @return whether half a cycle is over in which something moved
   */
  boolean refreshSpectrum(double seconds) {
    sinceSpectrum += seconds;
    if (!spectrumDue || sinceSpectrum * nominalHertz < 0.5) {
      return false;
    }
    refreshSpectrum();
    return true;
  }

  private void refreshSpectrum() {
    spectrum.refresh(v);
    sinceSpectrum = 0;
    spectrumDue = false;
  }

  private void makeEquations() {
    prepare(fundamental);
    for (int i = 0; i < loads.size(); i++) {
      loads.get(i).connect(fundamental);
    }
    for (int i = 0; i < faults.size(); i++) {
      faults.get(i).connect(fundamental);
    }
    fundamental.factor();
  }

  void prepare(Ladder ladder) {
    ladder.clear();
    for (int i = 0; i < openings.length; i++) {
      if (openings[i] > 0) {
        ladder.open(i / 3, i % 3);
      }
    }
    if (cut) {
      ladder.cutSource();
    }
  }

  private void solve() {
    clearDead();
    double tolerance = AGREED * AGREED;
    boolean agreed = false;
    for (passes = 0; passes < MOST_PASSES && !agreed; passes++) {
      Arrays.fill(injected, 0);
      for (int i = 0; i < loads.size(); i++) {
        loads.get(i).inject(v, injected);
      }
      System.arraycopy(v, 0, previous, 0, v.length);
      fundamental.solve(emf, injected, v);
      agreed = true;
      for (int i = Phasors.VECTOR; i < v.length && agreed; i += 2) {
        double x = v[i] - previous[i];
        double y = v[i + 1] - previous[i + 1];
        double scale = tree.nominalVolts(i / Phasors.VECTOR);
        agreed = x * x + y * y <= tolerance * scale * scale;
      }
    }
    Arrays.fill(drawn, 0);
    for (int i = 0; i < loads.size(); i++) {
      loads.get(i).draw(v, drawn);
    }
    for (int i = 0; i < faults.size(); i++) {
      faults.get(i).draw(v, drawn);
    }
    fundamental.flows(drawn, flow);
  }

  /** A load on a dead node must not inject on the strength of what was there before. */
  private void clearDead() {
    for (int i = 1; i < tree.size(); i++) {
      if (fundamental.dead(i)) {
        Arrays.fill(v, Phasors.VECTOR * i, Phasors.VECTOR * (i + 1), 0);
      }
    }
  }

  private void remember(Angle angle) {
    for (int i = 0; i < before.length; i++) {
      before[i] = sample(i / 3, i % 3, angle);
      squares[i] = Phasors.square(flow, 2 * i);
    }
  }

  /**
   * Current through an inductance does not jump: where a switching makes a current grow, what is
   * missing flows as direct current and fades with X / (w R) of the whole loop. A current that is
   * interrupted ends at its zero and leaves none.
   */
  private void offset(Angle angle, double seconds) {
    dcFlows = false;
    for (int i = 1; i < tree.size(); i++) {
      double time = timeConstant(i);
      fade[i] = time > 0 ? StrictMath.exp(-seconds / time) : 0;
      for (int p = 0; p < 3; p++) {
        int k = 3 * i + p;
        double now = Phasors.square(flow, 2 * k);
        if (now > squares[k]) {
          dc[k] = before[k] - angle.moment(flow[2 * k], flow[2 * k + 1]);
        } else if (now == 0 || openings[k] > 0) {
          dc[k] = 0;
        }
        dcFlows |= dc[k] != 0;
      }
    }
  }

  /** X / (w R) of the loop a branch's current takes, from the power of its no-load voltage. */
  private double timeConstant(int branch) {
    double p = 0;
    double q = 0;
    for (int k = Phasors.VECTOR * branch; k < Phasors.VECTOR * (branch + 1); k += 2) {
      p += idle[k] * flow[k] + idle[k + 1] * flow[k + 1];
      q += idle[k + 1] * flow[k] - idle[k] * flow[k + 1];
    }
    return p > 0 && q > 0 ? q / p / (2 * Math.PI * nominalHertz) : 0;
  }

  /** Lets direct currents fade by one step. */
  void fade() {
    if (!dcFlows) {
      return;
    }
    dcFlows = false;
    for (int k = 3; k < dc.length; k++) {
      dc[k] *= fade[k / 3];
      if (Math.abs(dc[k]) < DC_OVER) {
        dc[k] = 0;
      }
      dcFlows |= dc[k] != 0;
    }
  }

  /** Whether something has changed since the last solution. */
  boolean isUnsolved() {
    return stale || strayed || moved || spectrumDue;
  }

  /** Whether a direct current flows anywhere. */
  boolean hasDc() {
    return dcFlows;
  }

  double dc(int branch, int phase) {
    return dc[3 * branch + phase];
  }

  /** Momentary current of a branch's phase without harmonics, A. */
  double sample(int branch, int phase, Angle angle) {
    int k = 3 * branch + phase;
    return angle.moment(flow[2 * k], flow[2 * k + 1]) + dc[k];
  }

  /** Fundamental current of a branch's phase, A rms. */
  double amperes(int branch, int phase) {
    return Phasors.size(flow, Phasors.VECTOR * branch + 2 * phase);
  }

  /** Voltage of a node's phase to its return, V rms, harmonics included. */
  double volts(int node, int phase) {
    double square = Phasors.square(v, Phasors.VECTOR * node + 2 * phase);
    return Math.sqrt(square + spectrum.voltSquares(node, phase));
  }

  Spectrum spectrum() {
    return spectrum;
  }

  /** Power in W that the source's inner voltage gives. */
  double sourceWatts() {
    double sum = 0;
    for (int k = 0; k < Phasors.VECTOR; k++) {
      sum += emf[k] * flow[k + Phasors.VECTOR];
    }
    return cut ? 0 : sum;
  }

  /** Reactive power in var that the source's inner voltage gives. */
  double sourceVars() {
    double sum = 0;
    for (int k = 0; k < Phasors.VECTOR; k += 2) {
      int f = k + Phasors.VECTOR;
      sum += emf[k + 1] * flow[f] - emf[k] * flow[f + 1];
    }
    return cut ? 0 : sum;
  }

  /** How many passes the last solution took, for tests. */
  int passes() {
    return passes;
  }

  void save(DataOutput to) throws IOException {
    for (double[] each : new double[][] {v, flow, emf, dc, fade}) {
      for (double x : each) {
        to.writeDouble(x);
      }
    }
    for (int each : openings) {
      to.writeInt(each);
    }
    to.writeBoolean(dcFlows);
    to.writeBoolean(cut);
    to.writeBoolean(stale);
    to.writeBoolean(strayed);
    to.writeBoolean(moved);
    to.writeBoolean(spectrumDue);
    to.writeDouble(sinceSpectrum);
    spectrum.save(to);
  }

  /** Loads and faults must have been restored before: the equations are made from them. */
  void restore(DataInput from) throws IOException {
    for (double[] each : new double[][] {v, flow, emf, dc, fade}) {
      for (int i = 0; i < each.length; i++) {
        each[i] = from.readDouble();
      }
    }
    for (int i = 0; i < openings.length; i++) {
      openings[i] = from.readInt();
    }
    dcFlows = from.readBoolean();
    cut = from.readBoolean();
    stale = from.readBoolean();
    strayed = from.readBoolean();
    moved = from.readBoolean();
    spectrumDue = from.readBoolean();
    sinceSpectrum = from.readDouble();
    makeEquations();
    spectrum.factor(this);
    spectrum.restore(from);
  }
}
