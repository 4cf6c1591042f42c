package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.feeder.Tree.Branch;
import bufferstop.feeder.Tree.Coupling;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The sweep along the tree against nodal analysis: the same random network as one matrix of all
 * node admittances, solved by Gaussian elimination.
 */
class LadderProperties {
  private static final int CASES = 300;

  /** A random network and its injected currents. */
  private static final class Case {
    final Tree tree = new Tree(400);
    final double[] y; // shunts, 18 a node
    final double[] j;
    final double[] emf = new double[6];
    final int order;

    Case(Random random) {
      int nodes = 2 + random.nextInt(8);
      order = random.nextInt(3) == 0 ? 5 : 1;
      for (int i = 1; i < nodes; i++) {
        Coupling coupling = Coupling.values()[random.nextInt(4) == 0 ? 1 + random.nextInt(2) : 0];
        double ratio = coupling == Coupling.LINE ? 1 : 0.2 + 3 * random.nextDouble();
        tree.add(
            new Branch(
                "b" + i,
                random.nextInt(i),
                "n" + i,
                0.01 + random.nextDouble(),
                random.nextDouble(),
                random.nextDouble(),
                random.nextDouble(),
                coupling,
                ratio));
      }
      y = new double[18 * nodes];
      j = new double[6 * nodes];
      for (int k = 0; k < 6; k++) {
        emf[k] = 200 * random.nextDouble() - 100;
      }
      for (int k = 6; k < j.length; k++) {
        j[k] = random.nextInt(2) == 0 ? 0 : random.nextDouble() - 0.5;
      }
    }
  }

  private static Ladder ladder(Case c, Random random) {
    Ladder ladder = new Ladder(c.tree, c.order);
    ladder.clear();
    for (int i = 1; i < c.tree.size(); i++) {
      for (int p = 0; p < 3; p++) {
        c.y[18 * i + 8 * p] += Ladder.LEAK;
      }
      for (int n = random.nextInt(4); n > 0; n--) {
        int from = random.nextInt(3);
        int to = random.nextInt(4) - 1;
        to = to == from ? -1 : to;
        double size = StrictMath.pow(10, 4 * random.nextDouble() - 3); // load to bolted fault
        double g = size * random.nextDouble();
        double b = size * (random.nextDouble() - 0.5);
        ladder.connect(i, from, to, g, b);
        connect(c.y, 18 * i, from, to, g, b);
      }
    }
    ladder.factor();
    return ladder;
  }

  private static void connect(double[] y, int at, int from, int to, double g, double b) {
    add(y, at + 8 * from, g, b);
    if (to >= 0) {
      add(y, at + 8 * to, g, b);
      add(y, at + 6 * from + 2 * to, -g, -b);
      add(y, at + 6 * to + 2 * from, -g, -b);
    }
  }

  private static void add(double[] y, int at, double re, double im) {
    y[at] += re;
    y[at + 1] += im;
  }

  @Test
  void agreesWithNodalAnalysis() {
    long seed = 20_261_125L;
    Random random = new Random(seed);
    for (int n = 0; n < CASES; n++) {
      Case c = new Case(random);
      Ladder ladder = ladder(c, random);
      double[] v = new double[6 * c.tree.size()];
      ladder.solve(c.emf, c.j, v);
      double[] expected = nodal(c);
      double scale = 0;
      for (double each : expected) {
        scale = Math.max(scale, Math.abs(each));
      }
      for (int k = 0; k < expected.length; k++) {
        assertEquals(expected[k], v[6 + k], 1e-8 * scale, "seed " + seed + ", case " + n);
      }
    }
  }

  /** Unknowns are the voltages of all nodes but the source's, re and im apart. */
  private static double[] nodal(Case c) {
    int size = 3 * (c.tree.size() - 1);
    double[][] re = new double[size][size];
    double[][] im = new double[size][size];
    double[] bRe = new double[size];
    double[] bIm = new double[size];
    for (int i = 1; i < c.tree.size(); i++) {
      branch(c, i, re, im, bRe, bIm);
      for (int row = 0; row < 3; row++) {
        bRe[3 * (i - 1) + row] += c.j[6 * i + 2 * row];
        bIm[3 * (i - 1) + row] += c.j[6 * i + 2 * row + 1];
        for (int col = 0; col < 3; col++) {
          re[3 * (i - 1) + row][3 * (i - 1) + col] += c.y[18 * i + 6 * row + 2 * col];
          im[3 * (i - 1) + row][3 * (i - 1) + col] += c.y[18 * i + 6 * row + 2 * col + 1];
        }
      }
    }
    return eliminate(re, im, bRe, bIm);
  }

  /** Adds the branch's admittance, its inverse by the closed form of own and common impedance. */
  private static void branch(
      Case c, int i, double[][] re, double[][] im, double[] bRe, double[] bIm) {
    Branch b = c.tree.branch(i);
    double[] own = inverse(b.ohms(), c.order * b.reactance());
    double[] whole =
        inverse(b.ohms() + 3 * b.returnOhms(), c.order * (b.reactance() + 3 * b.returnReactance()));
    double[] t =
        c.tree.matrix(i) == null ? new double[] {1, 0, 0, 0, 1, 0, 0, 0, 1} : c.tree.matrix(i);
    for (int row = 0; row < 3; row++) {
      for (int col = 0; col < 3; col++) {
        // 1/z on the diagonal, less a third of what the common path takes away
        double gRe = (row == col ? own[0] : 0) + (whole[0] - own[0]) / 3;
        double gIm = (row == col ? own[1] : 0) + (whole[1] - own[1]) / 3;
        stamp(c, i, row, col, gRe, gIm, t, re, im, bRe, bIm);
      }
    }
  }

  private static double[] inverse(double re, double im) {
    double square = re * re + im * im;
    return new double[] {re / square, -im / square};
  }

  /** Current row of the branch depends on (T Vp - Vn) col by g; it leaves the parent through T. */
  private static void stamp(
      Case c,
      int i,
      int row,
      int col,
      double gRe,
      double gIm,
      double[] t,
      double[][] re,
      double[][] im,
      double[] bRe,
      double[] bIm) {
    int parent = c.tree.branch(i).parent();
    int own = 3 * (i - 1);
    re[own + row][own + col] += gRe;
    im[own + row][own + col] += gIm;
    for (int k = 0; k < 3; k++) {
      double x = t[3 * col + k];
      if (parent == 0) {
        bRe[own + row] += x * (gRe * c.emf[2 * k] - gIm * c.emf[2 * k + 1]);
        bIm[own + row] += x * (gRe * c.emf[2 * k + 1] + gIm * c.emf[2 * k]);
        continue;
      }
      int up = 3 * (parent - 1);
      re[own + row][up + k] -= x * gRe;
      im[own + row][up + k] -= x * gIm;
      re[up + k][own + row] -= x * gRe; // the matrix is symmetrical
      im[up + k][own + row] -= x * gIm;
      for (int m = 0; m < 3; m++) {
        re[up + m][up + k] += t[3 * row + m] * x * gRe;
        im[up + m][up + k] += t[3 * row + m] * x * gIm;
      }
    }
  }

  private static double[] eliminate(double[][] re, double[][] im, double[] bRe, double[] bIm) {
    int size = bRe.length;
    for (int col = 0; col < size; col++) {
      int best = col;
      for (int row = col + 1; row < size; row++) {
        if (Math.hypot(re[row][col], im[row][col]) > Math.hypot(re[best][col], im[best][col])) {
          best = row;
        }
      }
      swap(re, im, bRe, bIm, col, best);
      for (int row = 0; row < size; row++) {
        if (row != col) {
          double[] p = inverse(re[col][col], im[col][col]);
          double fRe = re[row][col] * p[0] - im[row][col] * p[1];
          double fIm = re[row][col] * p[1] + im[row][col] * p[0];
          for (int k = col; k < size; k++) {
            re[row][k] -= fRe * re[col][k] - fIm * im[col][k];
            im[row][k] -= fRe * im[col][k] + fIm * re[col][k];
          }
          bRe[row] -= fRe * bRe[col] - fIm * bIm[col];
          bIm[row] -= fRe * bIm[col] + fIm * bRe[col];
        }
      }
    }
    double[] v = new double[2 * size];
    for (int k = 0; k < size; k++) {
      double[] p = inverse(re[k][k], im[k][k]);
      v[2 * k] = bRe[k] * p[0] - bIm[k] * p[1];
      v[2 * k + 1] = bRe[k] * p[1] + bIm[k] * p[0];
    }
    return v;
  }

  private static void swap(double[][] re, double[][] im, double[] bRe, double[] bIm, int a, int b) {
    double[] row = re[a];
    re[a] = re[b];
    re[b] = row;
    row = im[a];
    im[a] = im[b];
    im[b] = row;
    double x = bRe[a];
    bRe[a] = bRe[b];
    bRe[b] = x;
    x = bIm[a];
    bIm[a] = bIm[b];
    bIm[b] = x;
  }
}
