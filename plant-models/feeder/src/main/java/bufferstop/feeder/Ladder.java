package bufferstop.feeder;

import java.util.Arrays;

/**
 * The linear equations of a radial network at one frequency, solved exactly by one sweep towards
 * the source and one away from it. For the branch of impedance Z into a node of total admittance Y
 * with injected current J: V = A (T Vp + Z J) with A = (1 + Z Y)^-1, and the parent sees the
 * admittance Y A and the injection B J with B = 1 - Y A Z. A and B change only with the network, so
 * a step multiplies by them. [derived]
 */
final class Ladder {
  /** Keeps a conductor that hangs in the air at a voltage, S. Its loss is nothing: 0.5 mW. */
  static final double LEAK = 1e-8;

  /** An open pole beside closed ones, ohms. */
  private static final double GAP = 1e12;

  final int order;
  private final int count;
  private final int[] parent;
  private final double[][] coupling;
  private final double[] z; // 4 a node: phase re, im, return re, im
  private final double[] own; // admittance of the node itself
  private final double[] y; // and of all behind it
  private final double[] a;
  private final double[] b;
  private final boolean[] dead;
  private final boolean[] open;
  private final double[] injected;
  private final double[] work = new double[Phasors.MATRIX];
  private final double[] more = new double[Phasors.MATRIX];
  private final double[] vector = new double[Phasors.VECTOR];
  private final double[] drop = new double[Phasors.VECTOR];

  /**
   * @param order of the harmonic, 1 for the fundamental
   */
  Ladder(Tree tree, int order) {
    this.order = order;
    count = tree.size();
    parent = new int[count];
    coupling = new double[count][];
    z = new double[4 * count];
    own = new double[Phasors.MATRIX * count];
    y = new double[Phasors.MATRIX * count];
    a = new double[Phasors.MATRIX * count];
    b = new double[Phasors.MATRIX * count];
    dead = new boolean[count];
    open = new boolean[3 * count];
    injected = new double[Phasors.VECTOR * count];
    for (int i = 1; i < count; i++) {
      Tree.Branch branch = tree.branch(i);
      parent[i] = branch.parent();
      coupling[i] = tree.matrix(i);
      z[4 * i] = branch.ohms();
      z[4 * i + 1] = order * branch.reactance();
      z[4 * i + 2] = branch.returnOhms();
      z[4 * i + 3] = order * branch.returnReactance();
    }
  }

  /** Begins new equations: nothing connected, every pole closed. */
  void clear() {
    Arrays.fill(own, 0);
    Arrays.fill(open, false);
    Arrays.fill(dead, false);
    for (int i = 0; i < count; i++) {
      for (int p = 0; p < 3; p++) {
        own[Phasors.MATRIX * i + 8 * p] = LEAK;
      }
    }
  }

  /** Opens one pole (0 to 2) of a branch. */
  void open(int branch, int pole) {
    open[3 * branch + pole] = true;
  }

  /** The whole network is without source. */
  void cutSource() {
    dead[0] = true;
  }

  /**
   * Connects an admittance between two conductors of a node.
   *
   * @param to the other phase, or -1 for the return conductor
   */
  void connect(int node, int from, int to, double siemens, double susceptance) {
    int m = Phasors.MATRIX * node;
    stamp(m + 8 * from, siemens, susceptance);
    if (to >= 0) {
      stamp(m + 8 * to, siemens, susceptance);
      stamp(m + 6 * from + 2 * to, -siemens, -susceptance);
      stamp(m + 6 * to + 2 * from, -siemens, -susceptance);
    }
  }

  private void stamp(int at, double re, double im) {
    own[at] += re;
    own[at + 1] += im;
  }

  /** Works out A and B after the last {@link #connect}. */
  void factor() {
    System.arraycopy(own, 0, y, 0, y.length);
    for (int i = 1; i < count; i++) {
      dead[i] = dead[parent[i]] || open[3 * i] && open[3 * i + 1] && open[3 * i + 2];
    }
    for (int i = count - 1; i > 0; i--) {
      if (!dead[i]) {
        factor(i);
      }
    }
  }

  private void factor(int i) {
    int m = Phasors.MATRIX * i;
    multiplyByZ(i, y, m, work);
    for (int p = 0; p < 3; p++) {
      work[8 * p] += 1;
    }
    Phasors.invert(work, 0, a, m);
    Phasors.multiply(y, m, a, m, work, 0); // what the near side sees
    for (int row = 0; row < 3; row++) {
      for (int col = 0; col < 3; col++) {
        bElement(i, row, col);
      }
    }
    addToParent(i);
  }

  /** One element of B = 1 - W Z, W being in {@link #work}. */
  private void bElement(int i, int row, int col) {
    double sumRe = 0;
    double sumIm = 0;
    for (int k = 0; k < 3; k++) {
      sumRe += work[6 * row + 2 * k];
      sumIm += work[6 * row + 2 * k + 1];
    }
    double re = work[6 * row + 2 * col];
    double im = work[6 * row + 2 * col + 1];
    double own = z[4 * i] + (open[3 * i + col] ? GAP : 0);
    int at = Phasors.MATRIX * i + 6 * row + 2 * col;
    b[at] =
        (row == col ? 1 : 0)
            - (re * own - im * z[4 * i + 1])
            - (sumRe * z[4 * i + 2] - sumIm * z[4 * i + 3]);
    b[at + 1] = -(re * z[4 * i + 1] + im * own) - (sumRe * z[4 * i + 3] + sumIm * z[4 * i + 2]);
  }

  /** {@code to = Z m}, Z being its own on the diagonal and the return's everywhere. */
  private void multiplyByZ(int i, double[] m, int at, double[] to) {
    for (int col = 0; col < 3; col++) {
      double re = m[at + 2 * col] + m[at + 6 + 2 * col] + m[at + 12 + 2 * col];
      double im = m[at + 2 * col + 1] + m[at + 7 + 2 * col] + m[at + 13 + 2 * col];
      double backRe = re * z[4 * i + 2] - im * z[4 * i + 3];
      double backIm = re * z[4 * i + 3] + im * z[4 * i + 2];
      for (int row = 0; row < 3; row++) {
        double own = z[4 * i] + (open[3 * i + row] ? GAP : 0);
        double x = m[at + 6 * row + 2 * col];
        double iy = m[at + 6 * row + 2 * col + 1];
        to[6 * row + 2 * col] = x * own - iy * z[4 * i + 1] + backRe;
        to[6 * row + 2 * col + 1] = x * z[4 * i + 1] + iy * own + backIm;
      }
    }
  }

  private void addToParent(int i) {
    int to = Phasors.MATRIX * parent[i];
    double[] t = coupling[i];
    if (t == null) {
      for (int k = 0; k < Phasors.MATRIX; k++) {
        y[to + k] += work[k];
      }
      return;
    }
    for (int row = 0; row < 3; row++) { // more = W T
      for (int col = 0; col < 3; col++) {
        for (int part = 0; part < 2; part++) {
          double sum = 0;
          for (int k = 0; k < 3; k++) {
            sum += work[6 * row + 2 * k + part] * t[3 * k + col];
          }
          more[6 * row + 2 * col + part] = sum;
        }
      }
    }
    for (int row = 0; row < 3; row++) { // T transposed times that
      for (int col = 0; col < 3; col++) {
        for (int part = 0; part < 2; part++) {
          for (int k = 0; k < 3; k++) {
            y[to + 6 * row + 2 * col + part] += t[3 * k + row] * more[6 * k + 2 * col + part];
          }
        }
      }
    }
  }

  /** Whether nothing feeds a node. */
  boolean dead(int node) {
    return dead[node];
  }

  /**
   * Solves for the node voltages.
   *
   * @param emf the source's inner voltage, one vector
   * @param j current injected at each node; 0 at dead nodes
   * @param v takes the voltage of each node
   */
  void solve(double[] emf, double[] j, double[] v) {
    System.arraycopy(j, 0, injected, 0, injected.length);
    for (int i = count - 1; i > 0; i--) {
      int at = Phasors.VECTOR * i;
      if (!dead[i] && isAny(injected, at)) {
        Phasors.apply(b, Phasors.MATRIX * i, injected, at, vector, 0);
        back(coupling[i], vector, injected, Phasors.VECTOR * parent[i]);
      }
    }
    for (int k = 0; k < Phasors.VECTOR; k++) {
      v[k] = dead[0] ? 0 : emf[k];
    }
    for (int i = 1; i < count; i++) {
      int at = Phasors.VECTOR * i;
      if (dead[i]) {
        Arrays.fill(v, at, at + Phasors.VECTOR, 0);
      } else {
        carry(i, v, drop);
        if (isAny(injected, at)) {
          addDrop(i, at);
        }
        Phasors.apply(a, Phasors.MATRIX * i, drop, 0, v, at);
      }
    }
  }

  private static boolean isAny(double[] x, int at) {
    for (int k = 0; k < Phasors.VECTOR; k++) {
      if (x[at + k] != 0) {
        return true;
      }
    }
    return false;
  }

  /** Adds Z J of a node to {@link #drop}. */
  private void addDrop(int i, int at) {
    double re = injected[at] + injected[at + 2] + injected[at + 4];
    double im = injected[at + 1] + injected[at + 3] + injected[at + 5];
    double backRe = re * z[4 * i + 2] - im * z[4 * i + 3];
    double backIm = re * z[4 * i + 3] + im * z[4 * i + 2];
    for (int p = 0; p < 3; p++) {
      double own = z[4 * i] + (open[3 * i + p] ? GAP : 0);
      double x = injected[at + 2 * p];
      double iy = injected[at + 2 * p + 1];
      drop[2 * p] += x * own - iy * z[4 * i + 1] + backRe;
      drop[2 * p + 1] += x * z[4 * i + 1] + iy * own + backIm;
    }
  }

  /** The near side's voltage of a branch, carried over to its far side without load. */
  private void carry(int i, double[] v, double[] to) {
    int at = Phasors.VECTOR * parent[i];
    double[] t = coupling[i];
    if (t == null) {
      System.arraycopy(v, at, to, 0, Phasors.VECTOR);
      return;
    }
    for (int row = 0; row < 3; row++) {
      for (int part = 0; part < 2; part++) {
        to[2 * row + part] =
            t[3 * row] * v[at + part]
                + t[3 * row + 1] * v[at + 2 + part]
                + t[3 * row + 2] * v[at + 4 + part];
      }
    }
  }

  /** Adds a current of the far side to one of the near side. */
  private static void back(double[] t, double[] from, double[] to, int toAt) {
    for (int row = 0; row < 3; row++) {
      for (int part = 0; part < 2; part++) {
        to[toAt + 2 * row + part] +=
            t == null
                ? from[2 * row + part]
                : t[row] * from[part] + t[3 + row] * from[2 + part] + t[6 + row] * from[4 + part];
      }
    }
  }

  /**
   * Sums currents from the far ends towards the source.
   *
   * @param drawn current drawn at each node
   * @param flow takes the current of each branch on its far side; what a parent passes on is
   *     carried over transformers
   */
  void flows(double[] drawn, double[] flow) {
    System.arraycopy(drawn, 0, flow, 0, flow.length);
    for (int i = count - 1; i > 0; i--) {
      System.arraycopy(flow, Phasors.VECTOR * i, vector, 0, Phasors.VECTOR);
      back(coupling[i], vector, flow, Phasors.VECTOR * parent[i]);
    }
  }

  /** Adds the current that the admittances connected to each node draw. */
  void addShunts(double[] v, double[] drawn) {
    for (int i = 1; i < count; i++) {
      Phasors.apply(own, Phasors.MATRIX * i, v, Phasors.VECTOR * i, vector, 0);
      for (int k = 0; k < Phasors.VECTOR; k++) {
        drawn[Phasors.VECTOR * i + k] += vector[k];
      }
    }
  }
}
