package bufferstop.railway;

import bufferstop.spi.PlantFault;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/**
 * Faults of the railway's own; those of wires belong to the host. A fault acts on every part of its
 * kind; where there are more than one of them, a fault called {@code FAULT.NAME} acts on one.
 */
final class Faults {
  final List<PlantFault> declared = new ArrayList<>();
  private final List<Act> acts = new ArrayList<>();

  private interface Act {
    void set(boolean active, double amount);
  }

  private interface PartAct<T> {
    void set(T part, boolean active, double amount);
  }

  Faults(Line line) {
    addTrains(line);
    addTrack(line);
    addSensors(line.sensors);
  }

  void set(int fault, boolean active, double amount) {
    if (fault < 0 || fault >= acts.size()) {
      throw new IllegalArgumentException(
          "no fault " + fault + ", there are 0 to " + (acts.size() - 1));
    }
    acts.get(fault).set(active, amount);
  }

  private void add(PlantFault fault, Act act) {
    declared.add(fault);
    acts.add(act);
  }

  private static PlantFault onOff(String name, String text) {
    return new PlantFault(name, "", 0, 0, text);
  }

  private <T> void each(PlantFault fault, List<T> parts, Function<T, String> name, PartAct<T> act) {
    if (parts.isEmpty()) {
      return;
    }
    add(fault, (active, amount) -> parts.forEach(p -> act.set(p, active, amount)));
    if (parts.size() > 1) {
      for (T part : parts) {
        PlantFault one =
            new PlantFault(
                fault.name() + "." + name.apply(part),
                fault.unit(),
                fault.min(),
                fault.max(),
                fault.text());
        add(one, (active, amount) -> act.set(part, active, amount));
      }
    }
  }

  private void addTrains(Line line) {
    add(
        onOff("coupler_will_not_couple", "couplers meet but do not couple"),
        (active, amount) -> line.contacts.refuseCoupling(active));
    add(
        onOff("coupler_will_not_part", "nothing parts a coupler but force"),
        (active, amount) -> line.uncouplers.refuseParting(active));
    List<Integer> uncouplers = new ArrayList<>();
    for (int n = 0; n < line.uncouplers.count(); n++) {
      uncouplers.add(n);
    }
    each(
        onOff("uncoupler_jammed", "the uncoupler does not rise"),
        uncouplers,
        n -> line.data.uncouplers().get(n).name(),
        (n, active, amount) -> line.uncouplers.jam(n, active));
    Function<Drive, String> loco = d -> line.stock.data.get(d.vehicle).name();
    each(
        onOff("motor_open", "the motor circuit is open: no pull, no braking"),
        line.drives,
        loco,
        (d, active, amount) -> d.breakCircuit(active));
    each(
        onOff("motor_shorted", "the motor draws much and pulls nothing"),
        line.drives,
        loco,
        (d, active, amount) -> d.shortCircuit(active));
    add(
        new PlantFault("wheel_slip", "1", 0, 1, "the adhesion is multiplied by the amount"),
        (active, amount) -> {
          line.adhesion.reduce(active ? amount : 1);
          line.brakes.setAdhesionShare(active ? amount : 1);
        });
    add(
        new PlantFault("weak_brake", "1", 0, 1, "brake forces are multiplied by the amount"),
        (active, amount) -> line.brakes.weaken(active ? amount : 1));
    List<SeriesDrive> reversers = new ArrayList<>();
    for (Drive drive : line.drives) {
      if (drive instanceof SeriesDrive series && series.reverser() != null) {
        reversers.add(series);
      }
    }
    each(
        onOff("reverser_slips", "the reverser is one step further than anybody counted"),
        reversers,
        d -> loco.apply(d),
        (d, active, amount) -> {
          if (active) {
            d.reverser().slip();
          }
        });
    each(
        onOff("reverser_stuck", "the reverser does not step"),
        reversers,
        d -> loco.apply(d),
        (d, active, amount) -> d.reverser().stick(active));
  }

  private void addTrack(Line line) {
    each(
        onOff("hopper_gate_stuck", "the hopper gate stays as far open as it is"),
        line.hoppers,
        h -> h.data().name(),
        (h, active, amount) -> h.stick(active));
    add(
        new PlantFault("dirty_rail", "1", 0, 0.9, "wheels lose contact for that share of the time"),
        (active, amount) -> line.power.soil(active ? amount : 0));
    each(
        onOff("section_dead", "nothing of the feed reaches its track"),
        line.feeds,
        f -> f.data.name(),
        (f, active, amount) -> f.kill(active));
    each(
        onOff("turnout_stuck", "the blades do not move"),
        line.track.turnouts,
        t -> t.data.name(),
        (t, active, amount) -> t.stick(active));
    each(
        new PlantFault("turnout_slow", "1", 1, 1000, "moving takes so many times its time"),
        line.track.turnouts,
        t -> t.data.name(),
        (t, active, amount) -> t.slow(active ? amount : 1));
    each(
        onOff("barrier_stuck", "the barriers stay where they are"),
        line.crossings,
        c -> c.data.name(),
        (c, active, amount) -> c.stick(active));
    each(
        onOff("lights_out", "the road lights do not light"),
        line.crossings,
        c -> c.data.name(),
        (c, active, amount) -> c.darken(active));
  }

  private void addSensors(Sensors sensors) {
    each(
        beside("beam_misaligned"),
        sensors.beams,
        b -> b.data.name(),
        (b, active, amount) -> b.chain.misalign(active ? amount : 0));
    each(
        onOff("beam_dark", "no light: a through-beam sees something, a reflective head nothing"),
        sensors.beams,
        b -> b.data.name(),
        (b, active, amount) -> b.kill(active));
    each(
        beside("reed_misaligned"),
        sensors.reeds,
        r -> r.data.name(),
        (r, active, amount) -> r.chain.misalign(active ? amount : 0));
    each(
        onOff("block_blind", "axles do not conduct: rust, sand, no resistors"),
        sensors.blocks,
        b -> b.data.name(),
        (b, active, amount) -> b.blind(active));
    each(
        onOff("block_leaks", "something across the rails conducts"),
        sensors.blocks,
        b -> b.data.name(),
        (b, active, amount) -> b.leak(active));
    each(
        new PlantFault("counter_misses", "1", 0, 1, "each axle is missed with that chance"),
        sensors.counters,
        c -> c.data.name(),
        (c, active, amount) -> c.miss(active ? amount : 0));
    each(
        beside("counter_misaligned"),
        sensors.counters,
        c -> c.data.name(),
        (c, active, amount) -> c.misalign(active ? amount : 0));
  }

  private static PlantFault beside(String name) {
    return new PlantFault(name, "m", -10, 10, "it stands so far beside its place");
  }
}
