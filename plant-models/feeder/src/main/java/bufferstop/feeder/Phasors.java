package bufferstop.feeder;

/**
 * Complex vectors of three phases (6 numbers, re and im alternating) and complex 3 x 3 matrices (18
 * numbers, row by row) in flat arrays at given offsets. Nothing is allocated.
 */
final class Phasors {
  static final int VECTOR = 6;
  static final int MATRIX = 18;

  private Phasors() {}

  /** {@code to = m x}, for {@code to} apart from {@code x}. */
  static void apply(double[] m, int mAt, double[] x, int xAt, double[] to, int toAt) {
    double x0 = x[xAt];
    double y0 = x[xAt + 1];
    double x1 = x[xAt + 2];
    double y1 = x[xAt + 3];
    double x2 = x[xAt + 4];
    double y2 = x[xAt + 5];
    for (int row = 0; row < 3; row++) {
      int a = mAt + 6 * row;
      to[toAt + 2 * row] =
          m[a] * x0 - m[a + 1] * y0 + m[a + 2] * x1 - m[a + 3] * y1 + m[a + 4] * x2 - m[a + 5] * y2;
      to[toAt + 2 * row + 1] =
          m[a] * y0 + m[a + 1] * x0 + m[a + 2] * y1 + m[a + 3] * x1 + m[a + 4] * y2 + m[a + 5] * x2;
    }
  }

  /** {@code to = a b}, for {@code to} apart from both. */
  static void multiply(double[] a, int aAt, double[] b, int bAt, double[] to, int toAt) {
    for (int row = 0; row < 3; row++) {
      for (int col = 0; col < 3; col++) {
        double re = 0;
        double im = 0;
        for (int k = 0; k < 3; k++) {
          int p = aAt + 6 * row + 2 * k;
          int q = bAt + 6 * k + 2 * col;
          re += a[p] * b[q] - a[p + 1] * b[q + 1];
          im += a[p] * b[q + 1] + a[p + 1] * b[q];
        }
        to[toAt + 6 * row + 2 * col] = re;
        to[toAt + 6 * row + 2 * col + 1] = im;
      }
    }
  }

  static void identity(double[] m, int at) {
    for (int i = 0; i < MATRIX; i++) {
      m[at + i] = i % 8 == 0 ? 1 : 0;
    }
  }

  /**
   * {@code to = m} inverted, by Gauss and Jordan with pivoting by rows; {@code m} is destroyed.
   *
   * @throws ArithmeticException when it has no inverse
   */
  static void invert(double[] m, int at, double[] to, int toAt) {
    identity(to, toAt);
    for (int col = 0; col < 3; col++) {
      int best = col;
      for (int row = col + 1; row < 3; row++) {
        if (square(m, at + 6 * row + 2 * col) > square(m, at + 6 * best + 2 * col)) {
          best = row;
        }
      }
      double size = square(m, at + 6 * best + 2 * col);
      if (!(size > 0)) {
        throw new ArithmeticException("a network equation has no solution");
      }
      swap(m, at + 6 * col, at + 6 * best);
      swap(to, toAt + 6 * col, toAt + 6 * best);
      double re = m[at + 8 * col] / size;
      double im = -m[at + 8 * col + 1] / size;
      scale(m, at + 6 * col, re, im);
      scale(to, toAt + 6 * col, re, im);
      for (int row = 0; row < 3; row++) {
        if (row != col) {
          double byRe = m[at + 6 * row + 2 * col];
          double byIm = m[at + 6 * row + 2 * col + 1];
          subtract(m, at + 6 * row, at + 6 * col, byRe, byIm);
          subtract(to, toAt + 6 * row, toAt + 6 * col, byRe, byIm);
        }
      }
    }
  }

  static double square(double[] x, int at) {
    return x[at] * x[at] + x[at + 1] * x[at + 1];
  }

  /** Magnitude of one phasor. */
  static double size(double[] x, int at) {
    return Math.sqrt(square(x, at));
  }

  private static void swap(double[] m, int row, int other) {
    if (row != other) {
      for (int i = 0; i < VECTOR; i++) {
        double kept = m[row + i];
        m[row + i] = m[other + i];
        m[other + i] = kept;
      }
    }
  }

  private static void scale(double[] m, int row, double re, double im) {
    for (int i = 0; i < VECTOR; i += 2) {
      double was = m[row + i];
      m[row + i] = was * re - m[row + i + 1] * im;
      m[row + i + 1] = was * im + m[row + i + 1] * re;
    }
  }

  private static void subtract(double[] m, int row, int from, double re, double im) {
    for (int i = 0; i < VECTOR; i += 2) {
      m[row + i] -= m[from + i] * re - m[from + i + 1] * im;
      m[row + i + 1] -= m[from + i] * im + m[from + i + 1] * re;
    }
  }
}
