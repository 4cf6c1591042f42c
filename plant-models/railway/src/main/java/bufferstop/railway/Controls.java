package bufferstop.railway;

import bufferstop.railway.LineData.CrossingData;
import bufferstop.railway.LineData.DischargeData;
import bufferstop.railway.LineData.FeedData;
import bufferstop.railway.LineData.HopperData;
import bufferstop.railway.LineData.ObstacleData;
import bufferstop.railway.LineData.RelayData;
import bufferstop.railway.LineData.SignalData;
import bufferstop.railway.LineData.UncouplerData;
import bufferstop.railway.TrackData.TurnoutData;
import bufferstop.spi.Port;
import java.util.ArrayList;
import java.util.List;

/** The plant's input ports and what each of them works. */
final class Controls {
  private static final int NONE = -1;

  final List<Port> ports = new ArrayList<>();
  private final int[] close;
  private final int[] reverse;
  private final int[] volts;
  private final int[] boost;
  private final int[] enable;
  private final int[] lift;
  private final int[] open;
  private final int[] tip;
  private final int[] turn;
  private final int[] machine;
  private final int[] clear;
  private final int[] raise;
  private final int[] lights;
  private final int[] present;
  private final int[] coil;
  private final int[] go; // of a drive with a driver
  private final int[] handle;
  private final int[] brake;
  private final int[] backwards;
  private final int[] uncouple;

  Controls(LineData line) {
    int feeds = line.feeds().size();
    close = new int[feeds];
    reverse = new int[feeds];
    volts = new int[feeds];
    boost = new int[feeds];
    enable = new int[feeds];
    int locos = (int) line.vehicles().stream().filter(v -> v.loco() != null).count();
    go = new int[locos];
    handle = new int[locos];
    brake = new int[locos];
    backwards = new int[locos];
    uncouple = new int[locos];
    for (int n = 0; n < feeds; n++) {
      feed(n, line.feeds().get(n));
    }
    lift = each(line.uncouplers(), (UncouplerData u) -> contact(u.name() + ".lift", "Raises it"));
    open = each(line.hoppers(), (HopperData h) -> contact(h.name() + ".open", "Opens the gate"));
    tip = each(line.discharges(), (DischargeData d) -> contact(d.name() + ".tip", "Tips"));
    turn =
        each(
            line.track().turnouts(),
            (TurnoutData t) ->
                contact(
                    "turnout." + t.name() + ".to_reverse", "TRUE: to reverse; FALSE: to normal"));
    machine =
        each(
            line.track().turnouts(),
            (TurnoutData t) ->
                optional(
                    "turnout." + t.name() + ".powered", "Its machine has power, else it stays", 1));
    clear =
        each(
            line.signals(),
            (SignalData s) -> contact("signal." + s.name() + ".clear", "Shows that it is clear"));
    raise =
        each(
            line.crossings(),
            (CrossingData c) ->
                contact("crossing." + c.name() + ".raise", "Holds the barriers up"));
    lights =
        each(
            line.crossings(),
            (CrossingData c) -> optional("crossing." + c.name() + ".lights", "Road lights on", 0));
    present =
        each(
            line.obstacles(),
            (ObstacleData o) ->
                optional("obstacle." + o.name() + ".present", "It is on the track", 0));
    coil =
        each(
            line.sensors().relays(),
            (RelayData r) -> contact("relay." + r.name() + ".coil", "Coil energised"));
    int n = 0;
    for (VehicleData vehicle : line.vehicles()) {
      if (vehicle.loco() != null) {
        loco(n++, vehicle);
      }
    }
  }

  private interface Declared<D> {
    int port(D data);
  }

  private static <D> int[] each(List<D> all, Declared<D> declared) {
    return all.stream().mapToInt(declared::port).toArray();
  }

  private int contact(String name, String text) {
    ports.add(Port.contact(name, text));
    return ports.size() - 1;
  }

  private int optional(String name, String text, double unwired) {
    ports.add(Port.contact(name, text).orElse(unwired));
    return ports.size() - 1;
  }

  private int share(String name, String text) {
    ports.add(Port.quantity(name, "", text).orElse(0));
    return ports.size() - 1;
  }

  private void feed(int n, FeedData feed) {
    String name = feed.name();
    close[n] = contact(name + ".close", "Traction contactor closed");
    reverse[n] =
        feed.ac()
            ? NONE
            : contact(name + ".reverse", "TRUE: drives to the low end; FALSE: to the high end");
    ports.add(Port.quantity(name + ".volts", "V", "Supply of the track").orElse(feed.volts()));
    volts[n] = ports.size() - 1;
    enable[n] = optional(name + ".enable", "Main contactor in series closed", 1);
    boost[n] =
        feed.boostVolts() > 0
            ? optional(name + ".boost", "The higher voltage in place of the supply's", 0)
            : NONE;
  }

  private void loco(int n, VehicleData vehicle) {
    String name = vehicle.name();
    go[n] = NONE;
    handle[n] = NONE;
    brake[n] = NONE;
    backwards[n] = NONE;
    if (vehicle.loco().traction() instanceof VehicleData.DriveData drive) {
      if (drive.driver() != null) {
        go[n] = optional(name + ".go", "The driver wants to go", 1);
      } else {
        handle[n] = share(name + ".handle", "How far the drive is open, 0 to 1");
        brake[n] = share(name + ".brake", "How far the brake is applied, 0 to 1");
      }
      backwards[n] = optional(name + ".backwards", "Drives towards its rear", 0);
    }
    uncouple[n] =
        vehicle.loco().remoteUncoupling()
            ? optional(name + ".uncouple", "Opens its couplers", 0)
            : NONE;
  }

  private static boolean on(double[] in, int port) {
    return port >= 0 && in[port] != 0;
  }

  /** Works everything for the coming step. */
  void apply(Line line, double seconds, long stepMicros, long nowMicros, double[] in) {
    for (int n = 0; n < close.length; n++) {
      boolean closed = on(in, close[n]) && on(in, enable[n]);
      line.feeds.get(n).set(closed, on(in, reverse[n]), on(in, boost[n]), in[volts[n]]);
    }
    line.uncouplers.beginStep();
    for (int n = 0; n < lift.length; n++) {
      line.uncouplers.lift(n, on(in, lift[n]));
    }
    for (int n = 0; n < open.length; n++) {
      line.hoppers.get(n).step(seconds, on(in, open[n]));
    }
    for (int n = 0; n < tip.length; n++) {
      line.discharges.get(n).step(seconds, on(in, tip[n]));
    }
    for (int n = 0; n < turn.length; n++) {
      if (on(in, machine[n])) {
        line.traffic.move(line.track.turnouts.get(n), seconds, on(in, turn[n]));
      }
    }
    for (int n = 0; n < clear.length; n++) {
      line.signals.set(n, on(in, clear[n]));
    }
    for (int n = 0; n < raise.length; n++) {
      line.crossings.get(n).step(seconds, on(in, raise[n]), on(in, lights[n]));
    }
    for (int n = 0; n < present.length; n++) {
      line.obstacles.get(n).step(on(in, present[n]));
    }
    for (int n = 0; n < coil.length; n++) {
      line.sensors.relays.get(n).step(on(in, coil[n]), nowMicros);
    }
    for (int n = 0; n < go.length; n++) {
      drive(line, n, in);
    }
  }

  private void drive(Line line, int n, double[] in) {
    Drive drive = line.drives.get(n);
    if (line.drivers[n] != null) {
      line.drivers[n].drive((EffortDrive) drive, line.brakes, on(in, go[n]), on(in, backwards[n]));
    } else if (drive instanceof EffortDrive effort) {
      effort.command(in[handle[n]], on(in, backwards[n]));
      line.brakes.ask(drive.vehicle, in[brake[n]]);
    }
    double above = drive.loco.uncouplesAbove();
    boolean byVolts = above > 0 && Math.abs(line.power.volts(n)) > above;
    if (above > 0 || uncouple[n] >= 0) {
      line.uncouplers.open(drive.vehicle, byVolts || on(in, uncouple[n]));
    }
  }
}
