package bufferstop.railway;

import bufferstop.railway.TrackData.BufferData;
import bufferstop.railway.TrackData.Stage;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A friction buffer stop with a rigid wall behind it. It resists being pushed with a force that is
 * constant over each stage of its travel (reference F2.4), does not spring back and stays where it
 * was pushed. At the wall only the speed and the energy of the contact are told, never a force
 * (reference 2.3, project choice). A gap is what lies between its untouched face and the nearest
 * vehicle's end, negative when it is overrun; speeds count towards it.
 */
final class EndStop implements Stateful {
  /** Nearer than this a vehicle counts as being in contact, m. */
  static final double CONTACT = 1e-9;

  /** What is told while no vehicle can be seen from it, m. */
  static final double NOBODY = RailwaySchema.FAR;

  final BufferData data;
  private final double[] force;
  private final double[] end; // of each stage, from the untouched face
  private final double travel;
  private double pushed;
  private boolean bearing;
  private double faceSpeed;
  private double wallSpeed;
  private double wallJoules;

  EndStop(BufferData data) {
    this.data = data;
    int stages = data.stages().size();
    force = new double[stages];
    end = new double[stages];
    double sum = 0;
    for (int i = 0; i < stages; i++) {
      Stage stage = data.stages().get(i);
      sum += stage.travelMetres();
      force[i] = stage.newtons();
      end[i] = sum;
    }
    travel = sum;
  }

  private int stage() {
    int stage = 0;
    while (stage < force.length - 1 && pushed >= end[stage] - CONTACT) {
      stage++;
    }
    return stage;
  }

  /** Force in N against being pushed from where it stands. */
  double newtons() {
    return force[stage()];
  }

  double toFace(double gap) {
    return gap + pushed;
  }

  double toWall(double gap) {
    return gap + travel;
  }

  /** Distance in m to where the force changes next. */
  double toNextStage(double gap) {
    return gap + end[stage()];
  }

  boolean bears(double gap) {
    return toFace(gap) <= CONTACT;
  }

  boolean atWall(double gap) {
    return toWall(gap) <= CONTACT;
  }

  /** Takes the gap after a move; returns whether the face was struck just now. */
  boolean meet(double gap, double speed) {
    boolean bore = bearing;
    bearing = bears(gap);
    pushed = Math.max(pushed, Math.min(travel, -gap));
    if (bore || !bearing || speed <= 0) {
      return false;
    }
    faceSpeed = Math.max(faceSpeed, speed);
    return true;
  }

  boolean strikes(double gap, double speed) {
    return speed > 0 && atWall(gap);
  }

  void strike(double speed, double kg) {
    wallSpeed = Math.max(wallSpeed, speed);
    wallJoules = Math.max(wallJoules, kg * speed * speed / 2);
  }

  double pushed() {
    return pushed;
  }

  double travel() {
    return travel;
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

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(pushed);
    to.writeBoolean(bearing);
    to.writeDouble(faceSpeed);
    to.writeDouble(wallSpeed);
    to.writeDouble(wallJoules);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    pushed = from.readDouble();
    bearing = from.readBoolean();
    faceSpeed = from.readDouble();
    wallSpeed = from.readDouble();
    wallJoules = from.readDouble();
  }
}
