package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** PID: what holds whatever happens. */
class PidProperties {
  private static final long SEED = Long.getLong("seed", 20_260);
  private static final int RUNS = 300;
  private static final int CALLS = 200;

  private final Random random = new Random(SEED);

  private Instance anyPid() {
    return new Instance(Pid.TYPE, Pid::step)
        .set("GAIN", random.nextDouble() * 6 - 3)
        .millis("TI", random.nextInt(4) == 0 ? 0 : 200 + random.nextInt(30_000))
        .millis("TD", random.nextInt(3) == 0 ? 0 : random.nextInt(5_000))
        .millis("TT", random.nextBoolean() ? 0 : random.nextInt(5_000))
        .set("N", 2 + random.nextDouble() * 18)
        .set("B", random.nextDouble())
        .set("C", random.nextInt(3) == 0 ? 1 : 0)
        .set("DIRECT", random.nextBoolean())
        .set("OUT_LOW", -50)
        .set("OUT_HIGH", 50);
  }

  /** In the call of a transfer OUT is what it was, wherever signals and settings have gone. */
  @Test
  void everyTransferIsBumpless() {
    int transfers = 0;
    for (int run = 0; run < RUNS; run++) {
      Instance pid = anyPid().set("PV", random.nextGaussian() * 20).at(0);
      double now = 0;
      for (int call = 0; call < CALLS; call++) {
        pid.set("PV", pid.real("PV") + random.nextGaussian()).set("SP", random.nextGaussian() * 20);
        boolean transfer = random.nextInt(5) == 0;
        if (transfer) {
          transfers++;
          pid.set("AUTO", !pid.on("AUTO"));
        } else {
          pid.set("MANUAL", random.nextInt(4) == 0 ? random.nextGaussian() * 40 : 0);
        }
        double before = pid.real("OUT");
        now += random.nextInt(2_000) / 1000.0;
        double out = pid.at(now).real("OUT");
        if (transfer) {
          assertEquals(before, out, 1e-9, "seed " + SEED + ", run " + run + ", call " + call);
        }
        assertTrue(Math.abs(out) <= 50, "seed " + SEED + ", run " + run + ": " + out);
      }
    }
    assertTrue(transfers > RUNS, "only " + transfers);
  }

  /** A release from tracking is none either, and tracking reaches its value within the limits. */
  @Test
  void everyReleaseFromTrackingIsBumpless() {
    for (int run = 0; run < RUNS; run++) {
      Instance pid = anyPid().set("AUTO", random.nextBoolean()).at(0);
      double now = 0;
      for (int call = 0; call < CALLS; call++) {
        double tracked = random.nextGaussian() * 40;
        pid.set("PV", random.nextGaussian() * 20).set("TRACK", true).set("TRACKED", tracked);
        now += 0.1 + random.nextDouble();
        double held = pid.at(now).real("OUT");
        assertEquals(Math.max(-50, Math.min(50, tracked)), held, "seed " + SEED);
        pid.set("PV", random.nextGaussian() * 20).set("TRACK", false);
        assertEquals(held, pid.at(now + 0.05).real("OUT"), 1e-9, "seed " + SEED);
      }
    }
  }
}
