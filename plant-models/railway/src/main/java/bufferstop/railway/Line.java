package bufferstop.railway;

import bufferstop.railway.LineData.BeamData;
import bufferstop.railway.LineData.ReedData;
import bufferstop.spi.RandomStream;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** All parts of one line, put together, and their common step. */
final class Line {
  final LineData data;
  final Happenings happenings = new Happenings();
  final Train train;
  final Traction traction;
  final EndStop pit;
  final EndStop shed;
  final Forces forces;
  final Uncoupler uncoupler;
  final Contacts contacts;
  final Hopper hopper; // null when the line has none
  final Discharge discharge; // null when the line has none
  final List<Beam> beams = new ArrayList<>();
  final List<Reed> reeds = new ArrayList<>();
  private final Motion motion;

  Line(LineData data, RandomStream random) {
    this.data = data;
    train = new Train(data);
    traction = new Traction(data);
    pit = new EndStop(data.pitEnd(), -1);
    shed = new EndStop(data.shedEnd(), 1);
    forces = new Forces(data, train, traction, pit, shed);
    uncoupler = new Uncoupler(data.uncoupler(), train, happenings);
    contacts = new Contacts(train, pit, shed, data.coupling(), uncoupler, happenings);
    motion = new Motion(train, forces, contacts, uncoupler, pit, shed);
    hopper = data.hopper() == null ? null : new Hopper(data.hopper(), train, happenings);
    discharge = data.discharge() == null ? null : new Discharge(data.discharge(), train);
    for (BeamData beam : data.beams()) {
      beams.add(new Beam(beam, train));
    }
    for (ReedData reed : data.reeds()) {
      reeds.add(new Reed(reed, train, data.loco().magnetOffsetMetres(), random.nextLong()));
    }
  }

  void start() {
    for (int i = 0; i < beams.size(); i++) {
      beams.get(i).start();
    }
    for (int i = 0; i < reeds.size(); i++) {
      reeds.get(i).start();
    }
  }

  /**
   * One step: load first, then motion, then sensors.
   *
   * @param nowMicros time at the end of the step
   */
  void step(long stepMicros, long nowMicros, Controls controls, double[] in) {
    double seconds = stepMicros * 1e-6;
    traction.feed(controls.closed(in), controls.reversed(in), controls.volts(in));
    uncoupler.lift(controls.lift(in));
    if (hopper != null) {
      hopper.step(seconds, controls.open(in));
    }
    if (discharge != null) {
      discharge.step(seconds, controls.tip(in));
    }
    motion.advance(seconds);
    for (int i = 0; i < beams.size(); i++) {
      beams.get(i).step(nowMicros);
    }
    for (int i = 0; i < reeds.size(); i++) {
      reeds.get(i).step(nowMicros);
    }
  }

  void save(DataOutput to) throws IOException {
    train.save(to);
    pit.save(to);
    shed.save(to);
    traction.save(to);
    to.writeDouble(forces.adhesionShare());
    to.writeBoolean(uncoupler.jammed());
    to.writeBoolean(contacts.refusesCoupling());
    if (hopper != null) {
      hopper.save(to);
    }
    if (discharge != null) {
      discharge.save(to);
    }
    for (Beam beam : beams) {
      beam.save(to);
    }
    for (Reed reed : reeds) {
      reed.save(to);
    }
  }

  void restore(DataInput from) throws IOException {
    train.restore(from);
    pit.restore(from);
    shed.restore(from);
    traction.restore(from);
    forces.setAdhesionShare(from.readDouble());
    uncoupler.jam(from.readBoolean());
    contacts.refuseCoupling(from.readBoolean());
    if (hopper != null) {
      hopper.restore(from);
    }
    if (discharge != null) {
      discharge.restore(from);
    }
    for (Beam beam : beams) {
      beam.restore(from);
    }
    for (Reed reed : reeds) {
      reed.restore(from);
    }
  }
}
