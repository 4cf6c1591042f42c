package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Power quantities against the reference, sections 5.1 to 5.3. */
class PowerQuantitiesTest {

  /** Rows of order, volts, degrees, amperes, degrees. */
  private static PowerQuantities of(double[][] rows) {
    PowerQuantities q = new PowerQuantities();
    for (double[] r : rows) {
      double v = Math.toRadians(r[2]);
      double i = Math.toRadians(r[4]);
      double vRe = r[1] * Math.cos(v);
      double vIm = r[1] * Math.sin(v);
      double iRe = r[3] * Math.cos(i);
      double iIm = r[3] * Math.sin(i);
      if (r[0] == 1) {
        q.fundamental(vRe, vIm, iRe, iIm);
      } else {
        q.harmonic(vRe, vIm, iRe, iIm);
      }
    }
    return q;
  }

  private static PowerQuantities annexB(double fifth, double seventh) {
    return of(
        new double[][] {
          {1, 100, 0, 100, -30},
          {3, 8, -70, 20, -165},
          {5, 15, 140, 15, fifth},
          {7, 5, 20, 10, seventh}
        });
  }

  /**
   * IEEE Std 1459-2010, Annex B: inputs as transcribed in a public file [seen second-hand], results
   * [computed]; these do not depend on the harmonics' angles.
   */
  @Test
  void agreesWithTheWorkedExampleWhereAnglesDoNotMatter() {
    PowerQuantities q = annexB(234, 234);
    assertEquals(101.5579, q.v(), 0.00005);
    assertEquals(103.5616, q.i(), 0.00005);
    assertEquals(0.1772, q.thdV(), 0.00005);
    assertEquals(0.26926, q.thdI(), 0.000005);
    assertEquals(10517.4926, q.s(), 0.00005);
    assertEquals(10000, q.s1(), 1e-9);
    assertEquals(3258.4736, q.sn(), 0.00005);
    assertEquals(2692.5824, q.di(), 0.00005);
    assertEquals(1772.0045, q.dv(), 0.00005);
    assertEquals(477.1268, q.sh(), 0.00005);
    assertEquals(8660.2540, q.p1(), 0.00005);
    assertEquals(5000, q.q1(), 1e-9);
    assertEquals(0.866025, q.pf1(), 0.0000005);
  }

  /** The transcribed 234 degrees are probably a misprint: both readings, [computed]. */
  @ParameterizedTest(name = "current angles {0} and {1}")
  @CsvSource({
    "234, 234, 8589.1620, -71.0920, 471.8007, 6069.9214, 0.81665",
    "233, 288, 8632.7886, -27.4655, 476.3356, 6007.7127, 0.82080"
  })
  void agreesWithTheWorkedExampleInBothReadings(
      double fifth, double seventh, double p, double ph, double dh, double n, double pf) {
    PowerQuantities q = annexB(fifth, seventh);
    assertEquals(p, q.p(), 0.00005);
    assertEquals(ph, q.ph(), 0.00005);
    assertEquals(dh, q.dh(), 0.00005);
    assertEquals(n, q.n(), 0.00005);
    assertEquals(pf, q.pf(), 0.000005);
  }

  /** Cases C1 and C2 [computed]. */
  @Test
  void truePowerFactorCountsDistortion() {
    PowerQuantities c1 = of(new double[][] {{1, 230, 0, 10, -36.8699}});
    assertEquals(1840, c1.p(), 0.001);
    assertEquals(1380, c1.q1(), 0.001);
    assertEquals(1380, c1.n(), 0.001);
    assertEquals(0.8, c1.pf(), 1e-6);
    assertEquals(c1.pf(), c1.pf1(), 1e-12);
    PowerQuantities c2 =
        of(
            new double[][] {
              {1, 230, 0, 40, -20}, {3, 0, 0, 12, 0}, {5, 0, 0, 6, 0}, {7, 0, 0, 3, 0}
            });
    assertEquals(42.2966, c2.i(), 0.00005);
    assertEquals(8645.1721, c2.p(), 0.00005);
    assertEquals(3146.5853, c2.q1(), 0.00005);
    assertEquals(9728.2116, c2.s(), 0.00005);
    assertEquals(3161.9772, c2.di(), 0.00005);
    assertEquals(4460.8406, c2.n(), 0.00005);
    assertEquals(0.939693, c2.pf1(), 0.0000005);
    assertEquals(0.888670, c2.pf(), 0.0000005);
    assertEquals(0.343693, c2.thdI(), 0.0000005);
  }

  /**
   * Case C3: a resistor behind phase control, its spectrum up to order 20001 [formulas textbook].
   */
  @ParameterizedTest(name = "fired at {0} degrees: true {4}, displacement {3}")
  @CsvSource({
    "30, 0.985477, 0.974420, 0.996660, 0.985477, 0.151073",
    "60, 0.896939, 0.839173, 0.958680, 0.896939, 0.377373",
    "90, 0.707107, 0.592724, 0.843564, 0.707107, 0.650538",
    "120, 0.442155, 0.308567, 0.633577, 0.442155, 1.026296",
    "150, 0.169807, 0.084640, 0.340670, 0.169807, 1.739226"
  })
  void phaseControlledResistor(
      double degrees, double i, double i1, double pf1, double pf, double thd) {
    double alpha = Math.toRadians(degrees);
    PowerQuantities q = new PowerQuantities();
    // sin(x) from alpha to pi, and its mirror; peak 1, so the full-wave rms is 1/sqrt(2)
    double a1 = (Math.cos(2 * alpha) - 1) / (2 * Math.PI);
    double b1 = (2 * (Math.PI - alpha) + Math.sin(2 * alpha)) / (2 * Math.PI);
    q.fundamental(0, -1, a1, -b1); // sine is cosine turned back by 90 degrees
    for (int h = 3; h <= 20_001; h += 2) {
      double a =
          ((Math.cos((h + 1) * alpha) - 1) / (h + 1) - (Math.cos((h - 1) * alpha) - 1) / (h - 1))
              / Math.PI;
      double b =
          (Math.sin((h + 1) * alpha) / (h + 1) - Math.sin((h - 1) * alpha) / (h - 1)) / Math.PI;
      q.harmonic(0, 0, a, -b);
    }
    assertEquals(i, q.i(), 0.0001);
    assertEquals(i1, q.i1(), 0.000001);
    assertEquals(pf1, q.pf1(), 0.000001);
    assertEquals(pf, q.pf(), 0.0001);
    assertEquals(thd, q.thdI(), 0.0005);
  }

  @Test
  void identitiesHoldForAnySpectrum() {
    java.util.Random random = new java.util.Random(1459);
    for (int n = 0; n < 500; n++) {
      double[][] rows = new double[6][];
      for (int k = 0; k < 6; k++) {
        rows[k] =
            new double[] {
              2 * k + 1,
              random.nextDouble() * (k == 0 ? 300 : 30),
              random.nextDouble() * 360,
              random.nextDouble() * (k == 0 ? 100 : 50),
              random.nextDouble() * 360
            };
      }
      PowerQuantities q = of(rows);
      double s2 = q.s() * q.s();
      double parts = q.s1() * q.s1() + q.di() * q.di() + q.dv() * q.dv() + q.sh() * q.sh();
      assertEquals(s2, parts, 1e-9 * s2, "seed 1459, case " + n);
      assertEquals(s2, q.p() * q.p() + q.n() * q.n(), 1e-9 * s2, "seed 1459, case " + n);
      assertEquals(
          q.s1() * q.s1(), q.p1() * q.p1() + q.q1() * q.q1(), 1e-9 * s2, "seed 1459, case " + n);
    }
  }
}
