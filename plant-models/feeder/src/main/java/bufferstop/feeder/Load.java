package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * One load: an admittance between the conductors it is connected to, which depends on voltage and
 * state by its kind. A part of it stands in the network's equations; the rest is injected as
 * current, so that a change of the load alone does not ask for new equations.
 */
final class Load {
  /** Below this share of its voltage a load of constant power goes on as an impedance. */
  private static final double POWER_FLOOR = 0.7;

  /** Likewise a load of constant current. */
  private static final double CURRENT_FLOOR = 0.1;

  /** Below this share of its voltage a load has cooled down or stands still. */
  static final double DEAD = 0.5;

  /** A change smaller than this share of the load is not worth solving the network for. */
  static final double NOTICED = 1e-4;

  final LoadData data;
  final int node;
  final double legVolts;
  private final Motor motor; // null unless one
  private final double nominalRe; // admittance of a leg at nominal voltage
  private final double nominalIm;
  private boolean on = true;
  private boolean connected = true; // a motor's contactor
  private double dcAmperes;
  private double taken = 1; // share of its power that its port asks for
  private double cooled; // 0 warm to 1 cold
  private double re; // admittance a leg at nominal voltage, now
  private double im;
  private double solvedRe;
  private double solvedIm;
  private double baseRe; // what stands in the equations
  private double baseIm;
  private final double[] leg = new double[4]; // voltage and current of the leg at work

  /** Volts (rms, share of nominal) and power of the last solution. */
  private double share = 1;

  private double steppedShare; // what a motor last saw
  private double watts;
  private double vars;
  private double amperes;

  Load(LoadData data, int node, double lineVolts) {
    this.data = data;
    this.node = node;
    legVolts = data.betweenLines() ? lineVolts : lineVolts / Math.sqrt(3);
    double legs = data.legs();
    nominalRe = data.watts() / legs / (legVolts * legVolts);
    nominalIm = -data.vars() / legs / (legVolts * legVolts);
    motor = data.kind() == LoadData.Kind.MOTOR ? new Motor(data) : null;
    dcAmperes = 0;
    refresh();
    rebase();
  }

  /** Whether its ports say something other than before that is worth noticing. */
  boolean asks(boolean on, double dcAmperes, double taken) {
    if (on != this.on) {
      return true;
    }
    if (taken != this.taken && (Math.abs(taken - this.taken) > NOTICED || taken == 0)) {
      return true;
    }
    return data.hasDcPort()
        && (Math.abs(data.shareOfDc(dcAmperes) - data.shareOfDc(this.dcAmperes)) > NOTICED
            || dcAmperes == 0 && this.dcAmperes != 0);
  }

  /** Nothing in it moves while its voltage stays. */
  boolean idle() {
    if (motor != null) {
      return motor.idle() && share == steppedShare;
    }
    return data.pickUp() == 1 || cooled == (share > DEAD ? 0 : 1);
  }

  /** Takes what its ports say; returns whether the equations must be made anew. */
  boolean command(boolean on, double dcAmperes, double taken) {
    if (asks(on, dcAmperes, taken)) {
      this.taken = Math.max(0, taken);
      this.dcAmperes = Math.abs(dcAmperes); // either way round, a rectifier only gives
    }
    if (on == this.on) {
      return false;
    }
    this.on = on;
    connected = true;
    refresh();
    return true;
  }

  /**
   * Moves its state on; returns whether it has changed enough for a new solution.
   *
   * @param seconds step
   */
  boolean step(double seconds) {
    boolean live = share > DEAD;
    if (data.pickUp() != 1) {
      cool(live, seconds);
    }
    if (motor != null) {
      steppedShare = share;
      motor.step(seconds, isOn() ? share : 0);
      if (!data.restarts() && share < DEAD && motor.droppedOut(seconds)) {
        connected = false;
      }
    }
    refresh();
    double moved = Math.max(Math.abs(re - solvedRe), Math.abs(im - solvedIm));
    return moved > NOTICED * nominalSize() || moved > 0 && re == 0;
  }

  private double nominalSize() {
    return Math.sqrt(nominalRe * nominalRe + nominalIm * nominalIm);
  }

  private void cool(boolean live, double seconds) {
    double target = live ? 0 : 1;
    double time = live ? data.pickUpDecaySeconds() : data.pickUpBuildSeconds();
    cooled += (target - cooled) * seconds / (time + seconds);
    if (Math.abs(target - cooled) < 1e-6) {
      cooled = target;
    }
  }

  private boolean isOn() {
    return on && connected;
  }

  /** Works out its admittance at nominal voltage from its state. */
  private void refresh() {
    if (!isOn()) {
      re = 0;
      im = 0;
      return;
    }
    if (motor != null) {
      re = motor.siemens() * nominalSize();
      im = motor.susceptance() * nominalSize();
      return;
    }
    double scale = data.hasDcPort() ? data.shareOfDc(dcAmperes) : 1 + (data.pickUp() - 1) * cooled;
    re = nominalRe * scale * taken;
    im = nominalIm * scale * taken;
  }

  /** Whether the equations hold so little of it that they should be made anew. */
  boolean strays() {
    double far = Math.max(Math.abs(re - baseRe), Math.abs(im - baseIm));
    return far > 0.3 * nominalSize() + 0.3 * Math.max(Math.abs(re), Math.abs(im));
  }

  /** Takes its present admittance into the equations. */
  void rebase() {
    baseRe = re;
    baseIm = im;
  }

  /** Connects what stands in the equations. */
  void connect(Ladder ladder) {
    double gRe = ladder.order > 1 ? harmonicRe(ladder.order) : baseRe;
    double gIm = ladder.order > 1 ? harmonicIm(ladder.order) : baseIm;
    for (int i = 0; i < data.legs(); i++) {
      ladder.connect(node, data.from(i), data.to(i), gRe, gIm);
    }
  }

  private boolean isOpenToHarmonics() {
    return data.kind() == LoadData.Kind.RECTIFIER || !isOn();
  }

  /** Conductance of a leg at a harmonic; resistance and reactance count as parallel. */
  private double harmonicRe(int order) {
    if (isOpenToHarmonics()) {
      return 0;
    }
    return motor == null ? baseRe : motor.harmonicSiemens(order) * nominalSize();
  }

  private double harmonicIm(int order) {
    if (isOpenToHarmonics()) {
      return 0;
    }
    if (motor != null) {
      return motor.harmonicSusceptance(order) * nominalSize();
    }
    return baseIm < 0 ? baseIm / order : baseIm * order;
  }

  /** Adds its fundamental current to that of its node. */
  void current(double[] v, double[] to) {
    for (int i = 0; i < data.legs(); i++) {
      leg(i, v);
      add(to, i, leg[2], leg[3]);
    }
  }

  /** Adds its current of the k-th harmonic to that of its node. */
  void harmonic(Spectrum spectrum, int k, double[] fundamental, double[] to) {
    int order = spectrum.order(k);
    double[] v = spectrum.volts(k);
    double g = harmonicRe(order);
    double b = harmonicIm(order);
    for (int i = 0; i < data.legs(); i++) {
      leg(i, v);
      add(to, i, -(g * leg[0] - b * leg[1]), -(g * leg[1] + b * leg[0]));
    }
    for (int h = 0; h < data.spectrum().size(); h++) {
      if (data.order(h) == order) {
        distort(h, fundamental, to);
      }
    }
    for (int p = 0; p < Phasors.VECTOR; p++) {
      to[Phasors.VECTOR * node + p] *= -1; // both were given as injected
    }
  }

  /** How much of its nominal admittance it has at this share of its voltage. */
  private double at(double m) {
    return switch (data.kind()) {
      case IMPEDANCE, MOTOR -> 1;
      case CURRENT, RECTIFIER -> 1 / Math.max(m, CURRENT_FLOOR);
      case POWER -> 1 / (Math.max(m, POWER_FLOOR) * Math.max(m, POWER_FLOOR));
    };
  }

  private void leg(int i, double[] v) {
    int at = Phasors.VECTOR * node;
    int from = at + 2 * data.from(i);
    leg[0] = v[from];
    leg[1] = v[from + 1];
    if (data.to(i) >= 0) {
      leg[0] -= v[at + 2 * data.to(i)];
      leg[1] -= v[at + 2 * data.to(i) + 1];
    }
    double k = at(Math.sqrt(leg[0] * leg[0] + leg[1] * leg[1]) / legVolts);
    leg[2] = k * (re * leg[0] - im * leg[1]);
    leg[3] = k * (re * leg[1] + im * leg[0]);
  }

  /** Adds to {@code j} what the equations do not hold of its current at these voltages. */
  void inject(double[] v, double[] j) {
    for (int i = 0; i < data.legs(); i++) {
      leg(i, v);
      add(
          j,
          i,
          baseRe * leg[0] - baseIm * leg[1] - leg[2],
          baseRe * leg[1] + baseIm * leg[0] - leg[3]);
    }
  }

  private void add(double[] to, int i, double x, double y) {
    int at = Phasors.VECTOR * node;
    to[at + 2 * data.from(i)] += x;
    to[at + 2 * data.from(i) + 1] += y;
    if (data.to(i) >= 0) {
      to[at + 2 * data.to(i)] -= x;
      to[at + 2 * data.to(i) + 1] -= y;
    }
  }

  /** Adds the current it draws, and keeps voltage and power of the solution. */
  void draw(double[] v, double[] drawn) {
    double squares = 0;
    double currents = 0;
    watts = 0;
    vars = 0;
    for (int i = 0; i < data.legs(); i++) {
      leg(i, v);
      add(drawn, i, leg[2], leg[3]);
      squares += leg[0] * leg[0] + leg[1] * leg[1];
      currents += leg[2] * leg[2] + leg[3] * leg[3];
      watts += leg[0] * leg[2] + leg[1] * leg[3];
      vars += leg[1] * leg[2] - leg[0] * leg[3];
    }
    share = Math.sqrt(squares / data.legs()) / legVolts;
    amperes = Math.sqrt(currents / data.legs());
    solvedRe = re;
    solvedIm = im;
  }

  /** Adds the current of one harmonic that it gives to the network. */
  void distort(int spectrum, double[] v, double[] j) {
    if (!isOn()) {
      return;
    }
    for (int i = 0; i < data.legs(); i++) {
      leg(i, v);
      double size = Math.sqrt(leg[2] * leg[2] + leg[3] * leg[3]);
      if (size > 0) {
        double x = leg[2] / size;
        double y = leg[3] / size;
        double c = 1;
        double s = 0;
        for (int k = 0; k < data.order(spectrum); k++) {
          double was = c;
          c = c * x - s * y;
          s = was * y + s * x;
        }
        double h = -size * data.harmonicShare(spectrum); // drawn, so given with the other sign
        add(
            j,
            i,
            h * (c * data.cosine(spectrum) - s * data.sine(spectrum)),
            h * (c * data.sine(spectrum) + s * data.cosine(spectrum)));
      }
    }
  }

  /** Voltage as a share of nominal, mean of its legs. */
  double voltageShare() {
    return share;
  }

  /** Fundamental power in W. */
  double watts() {
    return watts;
  }

  /** Fundamental reactive power in var. */
  double vars() {
    return vars;
  }

  /** Fundamental current of a leg in A, rms over its legs. */
  double amperes() {
    return amperes;
  }

  /** What a rectifier with a port gives, V. */
  double dcVolts() {
    return Math.max(0, data.dcVolts() * share - data.dcOhms() * dcAmperes);
  }

  /** Speed of a motor as a share of synchronous; 0 for other kinds. */
  double speed() {
    return motor == null ? 0 : motor.speed();
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(on);
    to.writeBoolean(connected);
    for (double each :
        new double[] {
          dcAmperes,
          taken,
          cooled,
          re,
          im,
          solvedRe,
          solvedIm,
          baseRe,
          baseIm,
          share,
          steppedShare,
          watts,
          vars,
          amperes
        }) {
      to.writeDouble(each);
    }
    if (motor != null) {
      motor.save(to);
    }
  }

  void restore(DataInput from) throws IOException {
    on = from.readBoolean();
    connected = from.readBoolean();
    dcAmperes = from.readDouble();
    taken = from.readDouble();
    cooled = from.readDouble();
    re = from.readDouble();
    im = from.readDouble();
    solvedRe = from.readDouble();
    solvedIm = from.readDouble();
    baseRe = from.readDouble();
    baseIm = from.readDouble();
    share = from.readDouble();
    steppedShare = from.readDouble();
    watts = from.readDouble();
    vars = from.readDouble();
    amperes = from.readDouble();
    if (motor != null) {
      motor.restore(from);
    }
  }
}
