package bufferstop.railway;

import bufferstop.railway.LineData.CounterData;

/** Declares the output ports of a railway. */
final class Gauges {
  private Gauges() {}

  static void addAll(Readings to, Line line) {
    addSensors(to, line.sensors);
    for (int n = 0; n < line.drives.size(); n++) {
      addLoco(to, line, line.drives.get(n));
    }
    for (int i = 0; i < line.stock.count; i++) {
      if (!line.isLoco[i]) {
        addWagon(to, line, i);
      }
    }
    addPlaces(to, line);
    for (EndStop stop : line.track.stops) {
      addStop(to, line, stop);
    }
    addTurnouts(to, line);
    addCrossings(to, line);
    addTrains(to, line);
  }

  private static void addSensors(Readings to, Sensors sensors) {
    for (Beam beam : sensors.beams) {
      String when = beam.data.dark() ? "TRUE while blocked" : "TRUE while clear";
      to.contact("beam." + beam.data.name(), "Beam across the track, " + when, beam::on);
    }
    for (Reed reed : sensors.reeds) {
      to.contact("reed." + reed.data.name(), "Reed switch, TRUE at the magnet", reed::on);
    }
    for (Block block : sensors.blocks) {
      String when = block.data.relay() ? "TRUE while clear" : "TRUE while occupied";
      to.contact("block." + block.data.name(), "Block, " + when, block::on);
    }
    for (Counter counter : sensors.counters) {
      CounterData data = counter.data;
      String name = "counter." + data.name();
      to.quantity(name + ".up", "", "Axles counted towards the high end", counter::up);
      to.quantity(name + ".down", "", "Axles counted towards the low end", counter::down);
      to.contact(name + ".pulse", "A pulse for each axle", () -> sensors.pulse(counter));
    }
    for (Scale scale : sensors.scales) {
      String name = "scale." + scale.data.name();
      to.quantity(name + ".mass", "kg", "Mass as its load cell reads it", scale::kg);
      to.contact(name + ".heavy", "Its contact, TRUE above the set mass", scale::on);
    }
  }

  private static void addLoco(Readings to, Line line, Drive drive) {
    int i = drive.vehicle;
    String name = line.stock.data.get(i).name();
    Where where = new Where(line, i);
    to.quantity(name + ".position", "m", "Distance post of its middle", where::post);
    to.quantity(name + ".speed", "m/s", "Speed, positive to the high end", where::speed);
    boolean signed = drive instanceof DcDrive;
    to.quantity(
        name + ".current",
        "A",
        signed ? "Motor current, positive drives to the high end" : "Current taken",
        () -> signed ? drive.amperes() * where.alongRow() : drive.amperes());
    to.contact(name + ".coupled", "A coupler of it is coupled", () -> line.stock.isCoupled(i));
    if (drive instanceof SeriesDrive series && series.reverser() != null) {
      to.quantity(
          name + ".reverser",
          "",
          "State of its reverser: 0 forward, 1 neutral, 2 reverse, 3 neutral",
          () -> series.reverser().state());
    }
  }

  private static void addWagon(Readings to, Line line, int i) {
    String port = "wagon." + line.stock.data.get(i).name();
    Where where = new Where(line, i);
    to.quantity(port + ".position", "m", "Distance post of its middle", where::post);
    to.quantity(port + ".load", "kg", "Load of the wagon", () -> line.stock.loadKg[i]);
    to.contact(port + ".coupled", "A coupler of it is coupled", () -> line.stock.isCoupled(i));
  }

  private static void addPlaces(Readings to, Line line) {
    for (Hopper hopper : line.hoppers) {
      String name = hopper.data().name();
      to.quantity(name + ".stock", "kg", "Stock in the hopper", hopper::stockKg);
      to.quantity(name + ".spillage", "kg", "Spilt so far", hopper::spilledKg);
    }
    for (Discharge discharge : line.discharges) {
      String name = discharge.data().name();
      to.quantity(name + ".received", "kg", "Tipped so far", discharge::receivedKg);
    }
    for (Feed feed : line.feeds) {
      to.quantity(feed.data.name() + ".current", "A", "Current drawn", feed::amperes);
    }
    for (int n = 0; n < line.sensors.relays.size(); n++) {
      Armature relay = line.sensors.relays.get(n);
      String name = "relay." + line.data.sensors().relays().get(n).name();
      to.contact(name + ".contact", "Its make contact", relay::contact);
      to.contact(name + ".mirror", "Its break contact", () -> !relay.contact());
    }
  }

  private static void addStop(Readings to, Line line, EndStop stop) {
    String name = stop.data.name();
    to.quantity(
        name + ".gap",
        "m",
        "Untouched buffer face to nearest vehicle end",
        () -> gap(line.stock, stop));
    to.quantity(name + ".overrun", "m", "Farthest the face was pushed so far", stop::pushed);
    to.quantity(
        name + ".buffer_speed", "m/s", "Greatest speed at the face so far", stop::faceSpeed);
    to.quantity(
        name + ".impact_speed", "m/s", "Greatest speed at the wall so far", stop::wallSpeed);
    to.quantity(
        name + ".impact_energy", "J", "Greatest energy at the wall so far", stop::wallJoules);
  }

  /** Gap before a buffer stop; a great number while no vehicle can be seen from it. */
  static double gap(Stock stock, EndStop stop) {
    for (int row = 0; row < stock.rows; row++) {
      if (stock.lowStop[row] == stop) {
        return stock.lowGap(row);
      }
      if (stock.highStop[row] == stop) {
        return stock.highGap(row);
      }
    }
    return EndStop.NOBODY;
  }

  private static void addTurnouts(Readings to, Line line) {
    for (Turnout turnout : line.track.turnouts) {
      String name = "turnout." + turnout.data.name();
      to.contact(name + ".lies_normal", "End contact, TRUE at normal", turnout::provesNormal);
      to.contact(name + ".lies_reverse", "End contact, TRUE at reverse", turnout::provesReverse);
      to.quantity(name + ".run_through", "", "Times run through so far", turnout::runThroughs);
      to.quantity(name + ".moved_under", "", "Times moved under a train", turnout::movedUnder);
    }
    for (int n = 0; n < line.sensors.blocks.size(); n++) {
      int block = n;
      String name = "block." + line.sensors.blocks.get(n).data.name();
      to.quantity(
          name + ".trains", "", "Trains that stand in it", () -> line.traffic.trains(block));
    }
  }

  private static void addCrossings(Readings to, Line line) {
    for (Crossing crossing : line.crossings) {
      String name = "crossing." + crossing.data.name();
      to.contact(name + ".up", "Limit switch, TRUE while the barriers are up", crossing::up);
      to.contact(name + ".down", "Limit switch, TRUE while they are down", crossing::down);
      to.contact(name + ".lit", "Current relay of the lights, TRUE while they burn", crossing::lit);
      to.contact(name + ".occupied", "A train is on the road", crossing::occupied);
      to.quantity(
          name + ".unprotected", "", "Trains on it with barriers not down", crossing::unprotected);
    }
  }

  private static void addTrains(Readings to, Line line) {
    Hazards hazards = line.hazards;
    to.quantity("trains.collisions", "", "Collisions so far", hazards::collisions);
    to.quantity("trains.collision_speed", "m/s", "Greatest speed of one", hazards::collisionSpeed);
    to.quantity("trains.derailed", "", "Vehicles off the rails", hazards::derailments);
    to.quantity(
        "trains.divided", "", "Trains divided", () -> line.motion.broken() + line.rows.divided());
    to.quantity("trains.struck", "", "Persons or things struck so far", hazards::struck);
    to.quantity("trains.struck_speed", "m/s", "Greatest speed at that", hazards::struckSpeed);
    to.quantity("trains.passed_at_danger", "", "Signals passed at danger", hazards::passedAtDanger);
  }

  /** Where one vehicle is, by distance posts. */
  private record Where(Line line, int vehicle) {
    double post() {
      line.placement.locate(vehicle, 0);
      return line.track.post(line.placement.foundSegment(), line.placement.foundOffset());
    }

    /** +1 where its row runs to the high end of the segment under its middle, else -1. */
    int alongRow() {
      line.placement.locate(vehicle, 0);
      int facing = line.stock.facing[line.stock.at[vehicle]];
      return Track.towardsHigh(line.placement.foundWay()) ? facing : -facing;
    }

    double speed() {
      return line.stock.v[line.stock.at[vehicle]] * alongRow();
    }
  }
}
