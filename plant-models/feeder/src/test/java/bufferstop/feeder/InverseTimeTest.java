package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.feeder.InverseTime.Reset;
import bufferstop.feeder.InverseTime.Setting;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Inverse-time elements against the reference, sections 1.4 to 1.7. Constants: IEC 60255-151:2009,
 * Annex A [seen second-hand], IEEE C37.112 [from memory, not re-read]; times and integrals there
 * [computed], to the digits printed.
 */
class InverseTimeTest {
  private static Setting setting(Curve curve, double multiplier, double limit, Reset reset) {
    return new Setting(curve, multiplier, limit, 0, 0.95, reset, 0);
  }

  /** Time of operation in a scan of so many microseconds, under a current that depends on time. */
  private static double seconds(Setting setting, DoubleUnaryOperator multiple, long micros) {
    InverseTime element = new InverseTime(setting);
    for (long t = 0; t < 2_000_000_000L; t += micros) {
      if (element.step(multiple.applyAsDouble((t + micros / 2.0) * 1e-6), micros)) {
        return (t + micros) * 1e-6;
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  @ParameterizedTest(name = "{0} x setting, clamped at 20")
  @CsvSource({
    "1.1, 73.3744, 135.0000, 380.9524, 1200.0000, 27.1053, 93.8720, 134.4074",
    "1.3, 26.6105, 45.0000, 115.9420, 400.0000, 9.9029, 28.9113, 40.9913",
    "1.5, 17.1942, 27.0000, 64.0000, 240.0000, 6.4390, 16.1790, 22.6817",
    "2, 10.0290, 13.5000, 26.6667, 120.0000, 3.8032, 7.0277, 9.5217",
    "3, 6.3019, 6.7500, 10.0000, 60.0000, 2.4322, 2.9423, 3.6467",
    "4, 4.9798, 4.5000, 5.3333, 40.0000, 1.9458, 1.7983, 2.0017",
    "5, 4.2797, 3.3750, 3.3333, 30.0000, 1.6883, 1.3081, 1.2967",
    "6, 3.8372, 2.7000, 2.2857, 24.0000, 1.5255, 1.0513, 0.9274",
    "8, 3.2968, 1.9286, 1.2698, 17.1429, 1.3267, 0.8023, 0.5693",
    "10, 2.9706, 1.5000, 0.8081, 13.3333, 1.2068, 0.6891, 0.4065",
    "15, 2.5155, 0.9643, 0.3571, 8.5714, 1.0394, 0.5785, 0.2476",
    "20, 2.2674, 0.7105, 0.2005, 6.3158, 0.9481, 0.5401, 0.1924",
    "30, 2.2674, 0.7105, 0.2005, 6.3158, 0.9481, 0.5401, 0.1924"
  })
  void operatesAfterTheTimeOfTheTable(
      double m, double a, double b, double c, double l, double d, double e, double f) {
    double[] table = {a, b, c, l, d, e, f};
    for (Curve curve : Curve.values()) {
      Setting setting = setting(curve, 1, 20, Reset.INSTANTANEOUS);
      double expected = table[curve.ordinal()];
      assertEquals(expected, setting.seconds(m), 0.00005 + 1e-12, curve + " formula");
      double ceiling = Math.ceil(expected * 1000 - 0.05 - 1e-6) / 1000;
      double found = seconds(setting, t -> m, 1000);
      assertTrue(found >= ceiling - 1e-9 && found <= ceiling + 0.001 + 1e-9, curve + " " + found);
    }
  }

  @ParameterizedTest(name = "30 x setting without a limit, {0}: {1} s")
  @CsvSource({
    "IEC_STANDARD_INVERSE, 1.9889",
    "IEC_VERY_INVERSE, 0.4655",
    "IEC_EXTREMELY_INVERSE, 0.0890",
    "LONG_TIME_INVERSE, 4.1379",
    "IEEE_MODERATELY_INVERSE, 0.8456",
    "IEEE_VERY_INVERSE, 0.5128",
    "IEEE_EXTREMELY_INVERSE, 0.1531"
  })
  void limitMayBeLeftOut(Curve curve, double seconds) {
    assertEquals(seconds, setting(curve, 1, 0, Reset.INSTANTANEOUS).seconds(30), 0.00005);
  }

  /** Lecture notes Power System Protection and Switchgear, lectures 7 and 10 [re-read]. */
  @ParameterizedTest(name = "published: {0} x setting at {1}: {2} s")
  @CsvSource({"6, 0.5, 1.918, 0.0007", "17.49, 1, 2.377, 0.0005", "16.40, 1, 2.435, 0.0025"})
  void agreesWithPublishedWorkedValues(double m, double multiplier, double seconds, double within) {
    Curve curve = Curve.IEC_STANDARD_INVERSE;
    assertEquals(seconds, curve.seconds(m, multiplier), within);
  }

  @Test
  void neverOperatesAtItsSetting() {
    for (Curve curve : Curve.values()) {
      InverseTime element = new InverseTime(setting(curve, 0.01, 20, Reset.INSTANTANEOUS));
      for (int i = 0; i < 100_000; i++) {
        assertFalse(element.step(1, 1000));
      }
    }
  }

  /** Cases V1 to V4: the closed integral of a changing current. */
  @Test
  void operatesWhenTheIntegralIsOne() {
    Setting v1 = setting(Curve.IEC_STANDARD_INVERSE, 0.1, 20, Reset.INSTANTANEOUS);
    assertEquals(0.578580, seconds(v1, t -> t < 0.4 ? 2 : 10, 100), 0.0002);
    Setting v2 = setting(Curve.IEC_VERY_INVERSE, 0.2, 20, Reset.INSTANTANEOUS);
    assertEquals(0.742857, seconds(v2, t -> t < 0.5 ? 3 : 8, 100), 0.0002);
    Setting v3 = setting(Curve.IEC_VERY_INVERSE, 0.5, 20, Reset.INSTANTANEOUS);
    double root = (-0.5 + Math.sqrt(0.25 + 8 * 6.75)) / 4; // 2 t^2 + 0.5 t = 6.75
    assertEquals(1.716365, root, 1e-6);
    assertEquals(root, seconds(v3, t -> Math.min(1.5 + 4 * t, 9.5), 100), 0.0002);
    assertEquals(root, seconds(v3, t -> Math.min(1.5 + 4 * t, 9.5), 1000), 0.001);
    Setting v4 = setting(Curve.IEEE_VERY_INVERSE, 1, 20, Reset.INSTANTANEOUS);
    assertEquals(1.52834, seconds(v4, t -> Math.min(1.5 + 4 * t, 9.5), 100), 0.0002);
  }

  /** Cases V5 to V7: a gap of one second from 0.6 s on, by kind of reset. */
  @ParameterizedTest(name = "{0} with a gap at {1}: {2} s")
  @CsvSource({
    "DEPENDENT, 0, 2.368643",
    "DEPENDENT, 0.5, 2.353503",
    "DEPENDENT, 0.9, 2.319590",
    "INSTANTANEOUS, 0, 2.908083",
    "DEFINITE, 0, 2.308083"
  })
  void gapResetsByKind(Reset reset, double gap, double expected) {
    Setting setting = new Setting(Curve.IEEE_VERY_INVERSE, 1, 20, 0, 0.95, reset, 2);
    assertEquals(expected, seconds(setting, t -> t > 0.6 && t < 1.6 ? gap : 5, 100), 0.0002);
  }

  @Test
  void definiteResetForgetsAfterItsTime() {
    Setting setting = new Setting(Curve.IEEE_VERY_INVERSE, 1, 20, 0, 0.95, Reset.DEFINITE, 0.9);
    double forgotten = seconds(setting, t -> t > 0.6 && t < 1.6 ? 0 : 5, 100);
    assertEquals(2.908083, forgotten, 0.0002); // V7, instantaneous
  }

  /** Case V8: bursts that only a disc adds up. */
  @Test
  void discAddsUpBursts() {
    DoubleUnaryOperator bursts = t -> t % 0.6 < 0.3 ? 5 : 0;
    Setting disc = setting(Curve.IEEE_VERY_INVERSE, 1, 20, Reset.DEPENDENT);
    assertEquals(2.580755, seconds(disc, bursts, 100), 0.0003);
    InverseTime instant =
        new InverseTime(setting(Curve.IEEE_VERY_INVERSE, 1, 20, Reset.INSTANTANEOUS));
    for (int i = 0; i < 600_000; i++) {
      assertFalse(instant.step(bursts.applyAsDouble(i * 0.001 + 0.0005), 1000));
    }
  }

  /** Case V9: late by less than a scan, never early. */
  @ParameterizedTest(name = "scans of {0} us: {1} s")
  @CsvSource({"1000, 0.428", "10000, 0.430", "20000, 0.440", "50000, 0.450"})
  void operatesAtTheEndOfAScan(long micros, double expected) {
    Setting setting = setting(Curve.IEC_STANDARD_INVERSE, 0.1, 20, Reset.INSTANTANEOUS);
    assertEquals(expected, seconds(setting, t -> 5, micros), 1e-9);
  }

  /** Reset from full travel at multiplier 1, section 1.6 [computed]. */
  @ParameterizedTest(name = "at {0} x setting: {1}, {2}, {3} s")
  @CsvSource({
    "0, 4.8500, 21.6000, 29.1000",
    "0.5, 6.4667, 28.8000, 38.8000",
    "0.8, 13.4722, 60.0000, 80.8333",
    "0.9, 25.5263, 113.6842, 153.1579",
    "0.95, 49.7436, 221.5385, 298.4615"
  })
  void discTurnsBackInTheTimeOfTheTable(
      double m, double moderately, double very, double extremely) {
    double[] table = {moderately, very, extremely};
    Curve[] curves = {
      Curve.IEEE_MODERATELY_INVERSE, Curve.IEEE_VERY_INVERSE, Curve.IEEE_EXTREMELY_INVERSE
    };
    for (int i = 0; i < 3; i++) {
      Setting setting = setting(curves[i], 1, 20, Reset.DEPENDENT);
      InverseTime element = new InverseTime(setting);
      while (!element.step(20, 1000)) {
        assertTrue(element.progress() < 1);
      }
      element.operated();
      long steps = 0;
      while (element.progress() > 0) {
        element.step(m, 1000);
        steps++;
      }
      assertEquals(table[i], steps * 0.001, 0.0011, curves[i].toString());
    }
  }

  @Test
  void progressStandsStillBetweenDropOutAndSetting() {
    InverseTime element =
        new InverseTime(setting(Curve.IEC_VERY_INVERSE, 1, 20, Reset.INSTANTANEOUS));
    element.step(5, 1_000_000);
    double before = element.progress();
    element.step(0.96, 1_000_000);
    assertEquals(before, element.progress());
    assertTrue(element.started());
    element.step(0.95, 1_000_000);
    assertEquals(0, element.progress());
    assertFalse(element.started());
  }

  /** Drop-out to pick-up, section 2.5: setting 200 A. */
  @Test
  void startsAboveItsSettingAndLetsGoAtDropOut() {
    DefiniteTime element = new DefiniteTime(200, 0.95, 100);
    double[] amperes = {150, 200, 201, 195, 191, 190, 189};
    boolean[] starts = {false, false, true, true, true, false, false};
    for (int i = 0; i < amperes.length; i++) {
      element.step(amperes[i], 1000);
      assertEquals(starts[i], element.started(), amperes[i] + " A");
    }
  }

  @Test
  void leastTimeHolds() {
    Setting setting =
        new Setting(Curve.IEC_EXTREMELY_INVERSE, 0.05, 0, 0.03, 0.95, Reset.INSTANTANEOUS, 0);
    assertEquals(0.03, seconds(setting, t -> 30, 1000), 1e-9);
    assertEquals(0.03, setting.seconds(30));
  }
}
