package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.Deque;
import org.junit.jupiter.api.Test;

/** PID in closed loops. */
class PidLoopTest {
  private static final double PROCESS_GAIN = 2;
  private static final double LAG = 10; // s
  private static final double DEAD_TIME = 2; // s
  private static final double GAIN = 1.25; // SIMC: lag / (2 dead time process gain)
  private static final double INTEGRAL = 10; // s
  private static final double DERIVATIVE = 0.8; // s
  private static final double N = 5;

  /** Where the block works: a period of 10 ms, the process solved exactly over it. */
  private static double[] withTheBlock(double outHigh, int seconds) {
    Instance pid =
        new Instance(Pid.TYPE, Pid::step)
            .set("GAIN", GAIN)
            .millis("TI", (long) (INTEGRAL * 1000))
            .millis("TD", (long) (DERIVATIVE * 1000))
            .set("N", N)
            .set("OUT_LOW", -1)
            .set("OUT_HIGH", outHigh)
            .set("SP", 1);
    double[] seen = new double[seconds];
    Deque<Double> under = new ArrayDeque<>();
    double y = 0;
    for (int call = 0; call < seconds * 100; call++) {
      if (call % 100 == 0) {
        seen[call / 100] = y;
      }
      under.add(pid.set("PV", y).at(call / 100.0).real("OUT"));
      double u = under.size() > DEAD_TIME * 100 ? under.remove() : 0;
      y += (1 - Math.exp(-0.01 / LAG)) * (PROCESS_GAIN * u - y);
    }
    return seen;
  }

  /** The same equations by the simplest of methods, in steps of 0.5 ms. */
  private static double[] byEuler(double outHigh, int seconds) {
    double step = 0.0005;
    double[] late = new double[(int) Math.round(DEAD_TIME / step)];
    double[] seen = new double[seconds];
    double y = 0;
    double integral = 0;
    double filtered = 0;
    for (int i = 0; i < Math.round(seconds / step); i++) {
      if (i % Math.round(1 / step) == 0) {
        seen[(int) (i / Math.round(1 / step))] = y;
      }
      double error = 1 - y;
      double derivative = -N * (y - filtered);
      double wanted = GAIN * (error + integral + derivative);
      double u = Math.max(-1, Math.min(outHigh, wanted));
      filtered += step * N / DERIVATIVE * (y - filtered);
      if (wanted == u || wanted > u && error < 0 || wanted < u && error > 0) {
        integral += step * error / INTEGRAL;
      }
      double arrives = late[i % late.length];
      late[i % late.length] = u;
      y += step * (PROCESS_GAIN * arrives - y) / LAG;
    }
    return seen;
  }

  @Test
  void agreesWithAStraightSimulationOfLagAndDeadTime() {
    double[] block = withTheBlock(100, 60);
    double[] euler = byEuler(100, 60);
    for (int second = 0; second < 60; second++) {
      assertEquals(euler[second], block[second], 0.005, "at " + second + " s");
    }
    assertEquals(1, block[59], 0.01);
  }

  @Test
  void agreesWithItWhileTheOutputIsLimited() {
    double[] block = withTheBlock(0.6, 90);
    double[] euler = byEuler(0.6, 90);
    double most = 0;
    for (int second = 0; second < 90; second++) {
      assertEquals(euler[second], block[second], 0.005, "at " + second + " s");
      most = Math.max(most, block[second]);
    }
    assertTrue(most < 1.05, "overshoot to " + most);
  }

  /**
   * With TI equal to the lag of a process without dead time, the pole is cancelled and the loop is
   * a lag of first order: y = 1 - exp(-t gain process_gain / lag).
   */
  @Test
  void cancelsTheLagOfAProcessOfFirstOrder() {
    Instance pid =
        new Instance(Pid.TYPE, Pid::step).set("GAIN", 1).millis("TI", 10_000).set("SP", 1);
    double y = 0;
    for (int milli = 0; milli <= 20_000; milli++) {
      double t = milli / 1000.0;
      assertEquals(1 - Math.exp(-t * 2 / 10), y, 2e-4, "at " + t);
      double u = pid.set("PV", y).at(t).real("OUT");
      y += (1 - Math.exp(-0.001 / LAG)) * (PROCESS_GAIN * u - y);
    }
  }
}
