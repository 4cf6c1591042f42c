package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * An inverse-time element under a changing current: it operates when the integral of dt / t(M)
 * reaches 1 [IEEE C37.112, formula from memory, not re-read]. Between drop-out and setting its
 * progress stands still; below drop-out it resets at once, after a hold, or as a disc turns back.
 */
final class InverseTime {

  /** What becomes of progress after the current has gone. */
  enum Reset {
    INSTANTANEOUS,
    DEFINITE,
    DEPENDENT
  }

  /**
   * @param limit multiple above which the time does not fall any further, 0 for none
   * @param floorSeconds it never operates faster
   * @param dropOut share of the setting
   * @param resetSeconds hold of a definite reset; disc constant where the curve has none
   */
  record Setting(
      Curve curve,
      double multiplier,
      double limit,
      double floorSeconds,
      double dropOut,
      Reset reset,
      double resetSeconds) {

    /** Operating time at a constant current. */
    double seconds(double multiple) {
      double m = limit > 0 ? Math.min(multiple, limit) : multiple;
      return Math.max(curve.seconds(m, multiplier), floorSeconds);
    }

    /** Time for full reset at a current below the setting, as a disc. */
    double resetSeconds(double multiple) {
      double constant = curve.resetSeconds > 0 ? curve.resetSeconds : resetSeconds;
      return multiplier * constant / (1 - multiple * multiple);
    }
  }

  private static final double DONE = 1 - 1e-9;

  private final Setting setting;
  private double progress;
  private long elapsedMicros; // since it started
  private long heldMicros; // since it dropped out
  private boolean started;

  InverseTime(Setting setting) {
    this.setting = setting;
  }

  /**
   * One step.
   *
   * @param multiple current over setting during the step
   * @return whether it operates
   */
  boolean step(double multiple, long micros) {
    if (multiple > 1) {
      started = true;
      heldMicros = 0;
      elapsedMicros += micros;
      double m = setting.limit() > 0 ? Math.min(multiple, setting.limit()) : multiple;
      progress += micros * 1e-6 / setting.curve().seconds(m, setting.multiplier());
      return progress >= DONE && elapsedMicros >= setting.floorSeconds() * 1e6;
    }
    if (multiple > setting.dropOut()) {
      return false;
    }
    started = false;
    elapsedMicros = 0;
    if (progress > 0) {
      reset(multiple, micros);
    }
    return false;
  }

  private void reset(double multiple, long micros) {
    switch (setting.reset()) {
      case INSTANTANEOUS -> progress = 0;
      case DEFINITE -> {
        heldMicros += micros;
        if (heldMicros >= setting.resetSeconds() * 1e6) {
          progress = 0;
        }
      }
      default -> progress = Math.max(0, progress - micros * 1e-6 / setting.resetSeconds(multiple));
    }
  }

  /** After it has operated; a disc is let go where it stands and turns back by itself. */
  void operated() {
    if (setting.reset() != Reset.DEPENDENT) {
      progress = 0;
    } else {
      progress = Math.min(progress, 1);
    }
    elapsedMicros = 0;
  }

  /** Above its setting, or not yet below drop-out. */
  boolean started() {
    return started;
  }

  /** Nothing to reset and nothing running. */
  boolean idle() {
    return progress == 0 && !started;
  }

  double progress() {
    return progress;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(progress);
    to.writeLong(elapsedMicros);
    to.writeLong(heldMicros);
    to.writeBoolean(started);
  }

  void restore(DataInput from) throws IOException {
    progress = from.readDouble();
    elapsedMicros = from.readLong();
    heldMicros = from.readLong();
    started = from.readBoolean();
  }
}
