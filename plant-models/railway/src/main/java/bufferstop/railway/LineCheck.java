package bufferstop.railway;

import bufferstop.railway.LineData.BeamData;
import bufferstop.railway.LineData.EndData;
import bufferstop.railway.LineData.HopperData;
import bufferstop.railway.LineData.ReedData;
import bufferstop.railway.LineData.VehicleData;
import bufferstop.spi.Problems;
import bufferstop.spi.Settings;
import java.util.List;

/** What the schema cannot say about a line. */
final class LineCheck {
  /** Coupled vehicles may stand this far off their coupler gap, m. */
  private static final double EXACT = 1e-6;

  private final LineData line;
  private final Problems problems;
  private final double low;
  private final double high;

  LineCheck(LineData line, Problems problems) {
    this.line = line;
    this.problems = problems;
    low = line.pitEnd().faceMetres();
    high = line.shedEnd().faceMetres();
  }

  void check() {
    if (low >= high) {
      problems.error(
          line.shedEnd().at(),
          "face",
          "the shed end's face `" + high + "` lies before the pit end's `" + low + "`",
          "a place above " + low + " m",
          "the coordinate runs from the pit end to the shed end");
      return; // every place would be off such a line
    }
    line.vehicles().forEach(this::vehicle);
    neighbours();
    coupling();
    line.beams().forEach(this::beam);
    line.reeds().forEach(this::reed);
    if (line.uncoupler() != null) {
      place(line.uncoupler().at(), "position", line.uncoupler().positionMetres(), "uncoupler");
    }
    if (line.hopper() != null) {
      hopper(line.hopper());
    }
    discharge();
  }

  private void vehicle(VehicleData v) {
    name(v.at(), v.name());
    end(v, low - v.low(), line.pitEnd(), "pit");
    end(v, v.high() - high, line.shedEnd(), "shed");
    if (v.loadKg() > v.capacityKg()) {
      problems.error(
          v.at(),
          "load",
          "the load `" + v.loadKg() + "` of `" + v.name() + "` is more than it can hold",
          "0 to " + v.capacityKg() + " kg",
          "lower the load or raise the capacity");
    }
  }

  private void end(VehicleData v, double beyond, EndData end, String name) {
    if (beyond > 0) {
      problems.error(
          v.at(),
          "start",
          "`" + v.name() + "` stands " + metres(beyond) + " beyond the " + name + " end's face",
          "its body between " + low + " and " + high + " m",
          "move its start by " + metres(beyond) + ", or the face at " + end.faceMetres() + " m");
    }
  }

  private void neighbours() {
    List<VehicleData> all = line.vehicles();
    for (int i = 0; i + 1 < all.size(); i++) {
      pair(all.get(i), all.get(i + 1));
    }
    VehicleData last = all.get(all.size() - 1);
    if (last.coupledAtStart()) {
      problems.error(
          last.at(),
          "coupled_at_start",
          "`" + last.name() + "` has no neighbour towards the shed",
          "FALSE for the vehicle nearest to the shed",
          "couple the other one of the pair, or change their starts");
    }
  }

  private void pair(VehicleData a, VehicleData b) {
    double gap = line.coupling().gapMetres();
    double apart = b.low() - a.high() - gap;
    String right = metres(b.low() - gap - a.lengthMetres() / 2);
    if (a.coupledAtStart() && Math.abs(apart) > EXACT) {
      problems.error(
          a.at(),
          "start",
          "`" + a.name() + "` is to be coupled to `" + b.name() + "` but does not stand at it",
          right,
          "set start to " + right + ", or coupled_at_start to FALSE");
    } else if (apart < -EXACT) {
      problems.error(
          a.at(),
          "start",
          "`" + a.name() + "` and `" + b.name() + "` share a place",
          "at most " + right,
          "leave the coupler gap of " + gap + " m between their bodies");
    }
  }

  private void coupling() {
    if (line.coupling().maxSpeed() < line.coupling().minSpeed()) {
      problems.error(
          line.coupling().at(),
          "max_speed",
          "no closing speed couples: max_speed is below min_speed",
          "at least " + line.coupling().minSpeed() + " m/s",
          "raise max_speed or lower min_speed");
    }
  }

  private void beam(BeamData b) {
    name(b.at(), b.name());
    place(b.at(), "position", b.positionMetres(), "beam `" + b.name() + "`");
    if (b.clearShare() >= b.blockedShare()) {
      problems.error(
          b.at(),
          "p_off",
          "beam `" + b.name() + "` clears at a share that already blocks it",
          "below p_on, " + b.blockedShare(),
          "lower p_off or raise p_on");
    }
  }

  private void reed(ReedData r) {
    name(r.at(), r.name());
    place(r.at(), "position", r.positionMetres(), "reed `" + r.name() + "`");
    if (r.releaseMetres() < r.operateMetres()) {
      problems.error(
          r.at(),
          "release",
          "reed `" + r.name() + "` would open where it still closes",
          "at least operate, " + r.operateMetres() + " m",
          "a reed releases farther from the magnet than it operates");
    }
    if (r.closestMetres() >= r.operateMetres()) {
      problems.error(
          r.at(),
          "closest",
          "the magnet never comes near enough to close reed `" + r.name() + "`",
          "below operate, " + r.operateMetres() + " m",
          "lower closest or raise operate");
    }
  }

  private void hopper(HopperData h) {
    place(h.at(), "position", h.positionMetres(), "hopper");
    boolean flow = h.at().number("flow") > 0;
    boolean orifice = h.at().number("orifice") > 0;
    if (flow == orifice) {
      problems.error(
          h.at(),
          "flow",
          flow ? "the hopper's flow is given twice" : "the hopper has no flow",
          "either flow, or orifice with grain and bulk_density",
          flow ? "remove flow or orifice" : "give flow in kg/s");
    } else if (h.kgPerSecond() <= 0) {
      problems.error(
          h.at(),
          "orifice",
          "nothing flows through this orifice",
          "above 1.4 grain diameters, and a bulk density above 0",
          "widen the orifice or give bulk_density");
    }
  }

  private void discharge() {
    if (line.discharge() == null) {
      return;
    }
    Settings at = line.discharge().at();
    place(at, "from", line.discharge().fromMetres(), "discharge");
    place(at, "to", line.discharge().toMetres(), "discharge");
    if (line.discharge().toMetres() < line.discharge().fromMetres()) {
      problems.error(
          at,
          "to",
          "the discharge ends before it begins",
          "at least " + line.discharge().fromMetres() + " m",
          "exchange from and to");
    }
  }

  private void place(Settings at, String parameter, double metres, String what) {
    if (metres < low || metres > high) {
      problems.error(
          at,
          parameter,
          "the " + what + " at `" + metres + "` is off the line",
          low + " to " + high + " m",
          "the line runs from buffer face to buffer face");
    }
  }

  private void name(Settings at, String name) {
    if (!name.matches("[a-z][a-z0-9_]*")) {
      problems.error(
          at,
          name,
          "`" + name + "` cannot be part of a port's name",
          "a lower-case letter, then lower-case letters, digits or underscores",
          "rename it");
    }
  }

  /** Metres to the micrometre, so that rounding does not fill the line with digits. */
  private static String metres(double value) {
    return Math.round(value * 1e6) / 1e6 + " m";
  }
}
