package bufferstop.railway;

import bufferstop.railway.LineData.VehicleData;
import java.util.function.DoubleSupplier;

/** Declares the output ports of a line. */
final class Gauges {
  private Gauges() {}

  static void addAll(Readings to, Line line) {
    for (Beam beam : line.beams) {
      String when = beam.data.dark() ? "TRUE while blocked" : "TRUE while clear";
      to.contact("beam." + beam.data.name(), "Beam across the track, " + when, beam::on);
    }
    for (Reed reed : line.reeds) {
      to.contact("reed." + reed.data.name(), "Reed switch, TRUE at the magnet", reed::on);
    }
    addLoco(to, line);
    for (int i = 0; i < line.train.count; i++) {
      if (i != line.train.loco) {
        addWagon(to, line.train, i);
      }
    }
    addPlaces(to, line);
    addEnd(to, "pit_end", line.pit, () -> line.pit.gap(line.train.low(0)));
    int last = line.train.count - 1;
    addEnd(to, "shed_end", line.shed, () -> line.shed.gap(line.train.high(last)));
  }

  private static void addLoco(Readings to, Line line) {
    Train train = line.train;
    int loco = train.loco;
    to.quantity("loco.position", "m", "Middle of the locomotive", () -> train.x[loco]);
    to.quantity("loco.speed", "m/s", "Speed, positive to the shed", () -> train.v[loco]);
    to.quantity(
        "loco.current",
        "A",
        "Motor current, positive drives to the shed",
        () -> line.traction.amperes(train.wheel));
    to.contact("loco.coupled", "A coupler of it holds a wagon", () -> train.coupled(loco));
  }

  private static void addWagon(Readings to, Train train, int i) {
    VehicleData data = train.data.get(i);
    String port = "wagon." + data.name();
    to.quantity(port + ".position", "m", "Middle of the wagon", () -> train.x[i]);
    to.quantity(port + ".load", "kg", "Load of the wagon", () -> train.loadKg[i]);
    to.contact(port + ".coupled", "A coupler of it is coupled", () -> train.coupled(i));
  }

  private static void addPlaces(Readings to, Line line) {
    Hopper hopper = line.hopper;
    if (hopper != null) {
      to.quantity("hopper.stock", "kg", "Stock in the hopper", hopper::stockKg);
      to.quantity("hopper.spillage", "kg", "Spilt so far", hopper::spilledKg);
    }
    Discharge discharge = line.discharge;
    if (discharge != null) {
      to.quantity("discharge.received", "kg", "Tipped so far", discharge::receivedKg);
    }
  }

  private static void addEnd(Readings to, String name, EndStop stop, DoubleSupplier gap) {
    to.quantity(name + ".gap", "m", "Untouched buffer face to nearest vehicle end", gap);
    to.quantity(name + ".overrun", "m", "Farthest the face was pushed so far", stop::pushed);
    to.quantity(
        name + ".buffer_speed", "m/s", "Greatest speed at the face so far", stop::faceSpeed);
    to.quantity(
        name + ".impact_speed", "m/s", "Greatest speed at the wall so far", stop::wallSpeed);
    to.quantity(
        name + ".impact_energy", "J", "Greatest energy at the wall so far", stop::wallJoules);
  }
}
