package bufferstop.railway;

import bufferstop.railway.LineData.EndData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A friction buffer stop with a rigid wall behind it. It resists being pushed with a constant force
 * (reference F2.4), does not spring back and stays where it was pushed. At the wall only the speed
 * and the energy of the contact are told, never a force (reference 2.3, project choice).
 */
final class EndStop {
  /** Nearer than this a vehicle counts as being in contact, m. */
  static final double CONTACT = 1e-9;

  /** Direction in which a train runs into it: +1 or -1. */
  final double inward;

  final double newtons;
  private final double face;
  private final double travel;
  private double pushed;
  private boolean bearing;
  private double faceSpeed;
  private double wallSpeed;
  private double wallJoules;

  EndStop(EndData data, double inward) {
    this.inward = inward;
    newtons = data.newtons();
    face = data.faceMetres();
    travel = data.travelMetres();
  }

  /** Distance in m from the untouched face to a vehicle's end; negative when it is overrun. */
  double gap(double end) {
    return (face - end) * inward;
  }

  /** Distance in m from the face where it stands now to a vehicle's end. */
  double toFace(double end) {
    return gap(end) + pushed;
  }

  double toWall(double end) {
    return gap(end) + travel;
  }

  boolean bears(double end) {
    return toFace(end) <= CONTACT;
  }

  boolean atWall(double end) {
    return toWall(end) <= CONTACT;
  }

  /** Takes the vehicle's end after a move; returns whether the face was struck just now. */
  boolean meet(double end, double speed) {
    boolean bore = bearing;
    bearing = bears(end);
    pushed = Math.max(pushed, Math.min(travel, -gap(end)));
    if (bore || !bearing || speed * inward <= 0) {
      return false;
    }
    faceSpeed = Math.max(faceSpeed, speed * inward);
    return true;
  }

  /** Whether a vehicle with this end and speed is striking the wall. */
  boolean strikes(double end, double speed) {
    return speed * inward > 0 && atWall(end);
  }

  void strike(double speed, double kg) {
    wallSpeed = Math.max(wallSpeed, speed * inward);
    wallJoules = Math.max(wallJoules, kg * speed * speed / 2);
  }

  double pushed() {
    return pushed;
  }

  double faceMetres() {
    return face;
  }

  double wallMetres() {
    return face + inward * travel;
  }

  double faceSpeed() {
    return faceSpeed;
  }

  double wallSpeed() {
    return wallSpeed;
  }

  double wallJoules() {
    return wallJoules;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(pushed);
    to.writeBoolean(bearing);
    to.writeDouble(faceSpeed);
    to.writeDouble(wallSpeed);
    to.writeDouble(wallJoules);
  }

  void restore(DataInput from) throws IOException {
    pushed = from.readDouble();
    bearing = from.readBoolean();
    faceSpeed = from.readDouble();
    wallSpeed = from.readDouble();
    wallJoules = from.readDouble();
  }
}
