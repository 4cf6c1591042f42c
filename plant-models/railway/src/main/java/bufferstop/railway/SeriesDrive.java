package bufferstop.railway;

import bufferstop.railway.VehicleData.LocoData;
import bufferstop.railway.VehicleData.SeriesData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A series motor on three-rail alternating current, r.m.s. values (reference F3.8, F3.9 [derived]):
 * I = V / √((R + K ω)² + X²), mean torque K I². The polarity of the supply does not matter; the
 * direction is that of its reverser.
 */
final class SeriesDrive extends Drive {
  private final SeriesData motor;
  private final double perWheel; // K G / r: ohms for each m/s, and N for each A²
  private final Reverser reverser; // null: always forward
  private double volts;
  private int direction; // along the row

  SeriesDrive(int vehicle, LocoData loco, SeriesData motor) {
    super(vehicle, loco, motor.frictionNewtons(), motor.addedKg());
    this.motor = motor;
    perWheel = motor.constantHenries() * motor.toRim();
    reverser = motor.reverser() == null ? null : new Reverser(motor.reverser());
  }

  Reverser reverser() {
    return reverser;
  }

  @Override
  void prepare(Feed feed, int along, int high, double seconds) {
    volts = feed == null ? 0 : Math.abs(feed.trackVolts());
    if (reverser != null) {
      reverser.step(volts > 0, Math.round(seconds * 1e6));
    }
    direction = along * (reverser == null ? 1 : reverser.direction());
  }

  /** Current in A r.m.s. with the rotor turning at the speed of the rim in its own direction. */
  private double current(double forward) {
    double real = motor.ohms() + perWheel * forward;
    return volts / Math.sqrt(real * real + motor.reactanceOhms() * motor.reactanceOhms());
  }

  private boolean runs() {
    return direction != 0 && volts > 0 && !isOpen() && !isShorted();
  }

  @Override
  double newtons(double w) {
    if (!runs()) {
      return 0;
    }
    double i = current(w * direction);
    return direction * perWheel * i * i;
  }

  @Override
  double slope(double w) {
    if (!runs()) {
      return 0;
    }
    double forward = w * direction;
    double real = motor.ohms() + perWheel * forward;
    double square = real * real + motor.reactanceOhms() * motor.reactanceOhms();
    return Math.max(0, 2 * perWheel * perWheel * volts * volts * real / (square * square));
  }

  @Override
  double amperes() {
    if (isShorted() && volts > 0) {
      return volts / (motor.ohms() * SHORTED_SHARE);
    }
    return runs() ? current(wheel * direction) : 0;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    super.save(to);
    to.writeDouble(volts);
    to.writeInt(direction);
    if (reverser != null) {
      reverser.save(to);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    super.restore(from);
    volts = from.readDouble();
    direction = from.readInt();
    if (reverser != null) {
      reverser.restore(from);
    }
  }
}
