package bufferstop.railway;

import bufferstop.railway.VehicleData.DriveData;
import bufferstop.railway.VehicleData.LocoData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A full-size drive: F = min(effort, P / v), times how far its handle is open (reference F1.14). An
 * electric one needs its feed and draws P / (efficiency V) from it. Adhesion and slip are those of
 * every drive.
 */
final class EffortDrive extends Drive {
  final DriveData data;
  private double handle; // 0 to 1
  private int direction = 1; // along the row
  private boolean backwards;
  private double volts;

  EffortDrive(int vehicle, LocoData loco, DriveData data, double kg) {
    super(vehicle, loco, 0, data.rotatingShare() * kg);
    this.data = data;
  }

  /** Sets handle and direction for the coming step. */
  void command(double share, boolean backwards) {
    handle = Math.max(0, Math.min(1, share));
    this.backwards = backwards;
  }

  @Override
  void prepare(Feed feed, int along, int high, double seconds) {
    volts = feed == null ? 0 : Math.abs(feed.trackVolts());
    direction = backwards ? -along : along;
  }

  private boolean runs() {
    return !isOpen() && !isShorted() && (!data.electric() || volts > 0);
  }

  @Override
  double newtons(double w) {
    if (!runs()) {
      return 0;
    }
    double forward = w * direction;
    double limit =
        forward * data.effortNewtons() > data.watts()
            ? data.watts() / forward
            : data.effortNewtons();
    return direction * handle * limit;
  }

  @Override
  double slope(double w) {
    double forward = w * direction;
    return runs() && forward * data.effortNewtons() > data.watts()
        ? handle * data.watts() / (forward * forward)
        : 0;
  }

  /** Power at the rail, W. */
  double watts() {
    return newtons(wheel) * wheel;
  }

  @Override
  double amperes() {
    return data.electric() && volts > 0 ? Math.max(0, watts()) / (data.efficiency() * volts) : 0;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    super.save(to);
    to.writeDouble(handle);
    to.writeInt(direction);
    to.writeBoolean(backwards);
    to.writeDouble(volts);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    super.restore(from);
    handle = from.readDouble();
    direction = from.readInt();
    backwards = from.readBoolean();
    volts = from.readDouble();
  }
}
