package bufferstop.railway;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** Carries the whole state of a railway to a stream and back. */
final class LineState {
  private LineState() {}

  static void save(Line line, DataOutput to) throws IOException {
    line.placement.save(to);
    line.stock.save(to);
    for (Turnout turnout : line.track.turnouts) {
      turnout.save(to);
    }
    for (EndStop stop : line.track.stops) {
      stop.save(to);
    }
    for (Drive drive : line.drives) {
      drive.save(to);
    }
    for (Feed feed : line.feeds) {
      feed.save(to);
    }
    line.power.save(to);
    line.brakes.save(to);
    line.hazards.save(to);
    line.uncouplers.save(to);
    line.traffic.save(to);
    line.signals.save(to);
    line.rows.save(to);
    to.writeDouble(line.adhesionShare);
    to.writeBoolean(line.contacts.refusesCoupling());
    to.writeInt(line.motion.broken());
    for (Hopper hopper : line.hoppers) {
      hopper.save(to);
    }
    for (Discharge discharge : line.discharges) {
      discharge.save(to);
    }
    for (Crossing crossing : line.crossings) {
      crossing.save(to);
    }
    for (Obstacle obstacle : line.obstacles) {
      obstacle.save(to);
    }
    line.sensors.save(to);
  }

  static void restore(Line line, DataInput from) throws IOException {
    line.placement.restore(from);
    line.stock.restore(from);
    for (Turnout turnout : line.track.turnouts) {
      turnout.restore(from);
    }
    for (EndStop stop : line.track.stops) {
      stop.restore(from);
    }
    for (Drive drive : line.drives) {
      drive.restore(from);
    }
    for (Feed feed : line.feeds) {
      feed.restore(from);
    }
    line.power.restore(from);
    line.brakes.restore(from);
    line.hazards.restore(from);
    line.uncouplers.restore(from);
    line.traffic.restore(from);
    line.signals.restore(from);
    line.rows.restore(from);
    line.adhesionShare = from.readDouble();
    line.contacts.refuseCoupling(from.readBoolean());
    line.motion.setBroken(from.readInt());
    for (Hopper hopper : line.hoppers) {
      hopper.restore(from);
    }
    for (Discharge discharge : line.discharges) {
      discharge.restore(from);
    }
    for (Crossing crossing : line.crossings) {
      crossing.restore(from);
    }
    for (Obstacle obstacle : line.obstacles) {
      obstacle.restore(from);
    }
    line.occupancy.take(line.stock.who);
    line.sensors.restore(from);
    line.traffic.count();
  }
}
