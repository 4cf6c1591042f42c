package bufferstop.railway;

import bufferstop.railway.VehicleData.DriveData;
import bufferstop.railway.VehicleData.SeriesData;
import bufferstop.railway.VehicleData.TractionData;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** All parts of one railway, put together, and their common step. */
final class Line implements Stateful {
  final LineData data;
  final Happenings happenings = new Happenings();
  final Track track;
  final Placement placement;
  final Stock stock;
  final Occupancy occupancy;
  final Rows rows;
  final List<Drive> drives;
  final boolean[] isLoco;
  final List<Feed> feeds;
  final Power power;
  final Brakes brakes;
  final Resistance resistance;
  final Forces forces;
  final Hazards hazards;
  final Uncouplers uncouplers;
  final Contacts contacts;
  final Motion motion;
  final Traffic traffic;
  final Signals signals;
  final Driver[] drivers; // by drive, null where nobody drives
  final List<Hopper> hoppers;
  final List<Discharge> discharges;
  final List<Crossing> crossings;
  final List<Obstacle> obstacles;
  final Sensors sensors;
  final Adhesion adhesion = new Adhesion();
  private final List<Stateful> parts = new ArrayList<>(); // in the order they are saved in

  Line(LineData data, RandomStream random) {
    this.data = data;
    track = new Track(data.track());
    placement = new Placement(track, LineCheck.lengths(data));
    stock = new Stock(data, placement);
    LineCheck.place(data, placement, (vehicle, beyond) -> {});
    occupancy = new Occupancy(placement, stock.count);
    drives = drives(data);
    isLoco = new boolean[stock.count];
    drives.forEach(d -> isLoco[d.vehicle] = true);
    rows = new Rows(stock, occupancy, drives);
    feeds = all(data.feeds(), Feed::new);
    brakes = new Brakes(data);
    resistance = new Resistance(stock, brakes);
    forces = new Forces(stock, resistance, drives);
    hazards = new Hazards(stock, happenings);
    uncouplers = new Uncouplers(data.uncouplers(), stock, happenings);
    contacts = new Contacts(stock, data.coupling(), uncouplers, hazards, happenings);
    motion = new Motion(data, stock, forces, contacts, uncouplers, happenings);
    traffic = new Traffic(stock, occupancy, data.sensors().blocks().size(), hazards, happenings);
    signals = new Signals(data.signals(), stock, hazards);
    drivers = new Driver[drives.size()];
    for (int n = 0; n < drivers.length; n++) {
      if (drives.get(n) instanceof EffortDrive drive && drive.data.driver() != null) {
        drivers[n] = new Driver(drive.vehicle, drive.data.driver(), stock, signals);
      }
    }
    hoppers = all(data.hoppers(), h -> new Hopper(h, stock, occupancy, happenings));
    discharges = all(data.discharges(), d -> new Discharge(d, stock, occupancy));
    crossings = all(data.crossings(), c -> new Crossing(c, stock, occupancy, happenings));
    obstacles = all(data.obstacles(), o -> new Obstacle(o, stock, occupancy, hazards));
    sensors = new Sensors(data, stock, occupancy, feeds, random);
    power = new Power(stock, feeds, drives, happenings, random.nextLong());
    keep();
    join();
  }

  private void keep() {
    parts.addAll(List.of(placement, stock));
    parts.addAll(track.turnouts);
    parts.addAll(track.stops);
    parts.addAll(drives);
    parts.addAll(feeds);
    parts.addAll(List.of(power, brakes, hazards, uncouplers, traffic, signals, rows));
    parts.addAll(List.of(adhesion, contacts, motion));
    parts.addAll(hoppers);
    parts.addAll(discharges);
    parts.addAll(crossings);
    parts.addAll(obstacles);
    parts.add(sensors);
  }

  static <D, T> List<T> all(List<D> data, Function<D, T> made) {
    List<T> list = new ArrayList<>();
    data.forEach(d -> list.add(made.apply(d)));
    return List.copyOf(list);
  }

  private static List<Drive> drives(LineData data) {
    List<Drive> all = new ArrayList<>();
    for (int i = 0; i < data.vehicles().size(); i++) {
      VehicleData vehicle = data.vehicles().get(i);
      if (vehicle.loco() != null) {
        all.add(drive(i, vehicle));
      }
    }
    return List.copyOf(all);
  }

  private static Drive drive(int i, VehicleData vehicle) {
    TractionData traction = vehicle.loco().traction();
    if (traction instanceof Motor motor) {
      return new DcDrive(i, vehicle.loco(), motor);
    }
    return traction instanceof SeriesData series
        ? new SeriesDrive(i, vehicle.loco(), series)
        : new EffortDrive(i, vehicle.loco(), (DriveData) traction, vehicle.tareKg());
  }

  /** Makes rows of what was placed and couples what begins coupled. */
  private void join() {
    occupancy.take(stock.who);
    rows.link();
    for (int i = 0; i < stock.count; i++) {
      VehicleData vehicle = data.vehicles().get(i);
      int k = stock.at[i];
      if (vehicle.behind() >= 0 || vehicle.coupledInFront()) {
        int at = stock.facing[k] > 0 ? k : k - 1;
        boolean rigid = stock.slackMetres <= Forces.CONTACT;
        stock.coupled[at] = true;
        stock.contact[at] = rigid ? Stock.RIGID : Stock.PUSH;
      }
      stock.v[k] = vehicle.startSpeed() * stock.facing[k];
    }
    for (Drive drive : drives) {
      drive.wheel = stock.v[stock.at[drive.vehicle]];
    }
    traffic.count();
  }

  void start() {
    sensors.start();
    crossings.forEach(Crossing::start);
  }

  /**
   * One step: what is commanded first, then load, then motion, then what looks at it.
   *
   * @param nowMicros time at the end of the step
   */
  void step(long stepMicros, long nowMicros, Controls controls, double[] in) {
    double seconds = stepMicros * 1e-6;
    controls.apply(this, seconds, stepMicros, nowMicros, in);
    brakes.step(stock, isLoco, seconds);
    power.prepare(seconds, adhesion.share());
    if (traffic.takeMoved()) {
      rows.link();
    }
    resistance.prepare();
    motion.advance(seconds);
    if (settle()) {
      look();
    }
    for (int n = 0; n < crossings.size(); n++) {
      crossings.get(n).watch();
    }
    power.meter();
    sensors.step(stepMicros, nowMicros);
  }

  /** Puts the vehicles where they have moved to; returns whether anything moved. */
  private boolean settle() {
    boolean any = false;
    for (int k = 0; k < stock.count; k++) {
      if (stock.moved[k] != 0) {
        placement.move(stock.who[k], stock.moved[k] * stock.facing[k], traffic);
        any = true;
      }
    }
    return any;
  }

  private void look() {
    occupancy.take(stock.who);
    signals.watch();
    traffic.watch();
    boolean turned = placement.takeChanged();
    if (turned || rows.hasRing()) {
      rows.link();
    }
    traffic.count();
    for (int n = 0; n < obstacles.size(); n++) {
      obstacles.get(n).watch();
    }
    sensors.look();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    for (Stateful part : parts) {
      part.save(to);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    for (Stateful part : parts) {
      part.restore(from);
    }
    occupancy.take(stock.who);
    traffic.count();
  }
}
