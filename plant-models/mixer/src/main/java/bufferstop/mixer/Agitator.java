package bufferstop.mixer;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** The agitator and what it does to the mixture. */
final class Agitator {
  private static final double TURNING = 0.8; // share of full speed at which the monitor closes

  private final double fullSpeed;
  private final double runUpSeconds;
  private final double mixingSeconds;
  private double share; // of full speed
  private double mixed; // 1 is a mixture without streaks
  private boolean torn;

  Agitator(Settings with) {
    fullSpeed = with.number("speed");
    runUpSeconds = with.number("run_up");
    mixingSeconds = with.number("mixing");
  }

  /** Fault: the motor turns, the shaft does not. */
  void tearBelt(boolean torn) {
    this.torn = torn;
  }

  void step(double seconds, boolean run) {
    double goal = run && !torn ? 1 : 0;
    share += Lag.share(seconds, runUpSeconds) * (goal - share);
    mixed += Lag.share(seconds * share, mixingSeconds) * (1 - mixed);
  }

  /** What is added is not mixed yet. */
  void dilute(double massKg, double addedKg) {
    mixed *= massKg / (massKg + addedKg);
  }

  double speed() {
    return share * fullSpeed;
  }

  boolean isTurning() {
    return share >= TURNING;
  }

  double mixed() {
    return mixed;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(share);
    to.writeDouble(mixed);
    to.writeBoolean(torn);
  }

  void restore(DataInput from) throws IOException {
    share = from.readDouble();
    mixed = from.readDouble();
    torn = from.readBoolean();
  }
}
